// Longer than most: one case after the other, each a few lines, that share the hole in which everything is known.

import { describe, expect, it } from 'vitest';
import type { DepthReadings, PieceReading, RunReading } from './readings.ts';
import type { DepthSolution, Finding } from './solution.ts';
import { solveDepths } from './solve.ts';

/**
 * Invented holes in which everything is known: every run goes 0.800 m deeper (the first from the surface), a stub of
 * 0.030 m stays below the catchers, the core breaks nowhere but where a case says so. What solveDepths must find is
 * therefore plain arithmetic: D_r = 0.8 r, the core of run r ends at 0.8 r - 0.03.
 */
const ADVANCE = 0.8;
const STUB = 0.03;
const cent = (value: number): number => Math.round(value * 100) / 100;
const bottomAfter = (r: number): number => ADVANCE * r;
const coreAfter = (r: number): number => (r === 0 ? 0 : bottomAfter(r) - STUB);

const plain = (n: number): { runs: RunReading[]; pieces: PieceReading[] } => {
  const runs: RunReading[] = [];
  const pieces: PieceReading[] = [];
  for (let r = 1; r <= n; r++) {
    const id = String(r);
    runs.push({ id, from: cent(bottomAfter(r - 1) - (r > 1 ? 0.01 : 0)), to: cent(bottomAfter(r)) });
    pieces.push({
      id: `${id}-1`,
      run: id,
      length: Math.round(1000 * (coreAfter(r) - coreAfter(r - 1)) - 1) / 1000,
      topBreak: 'fits',
    });
  }
  return { runs, pieces };
};
const hole = (
  runs: readonly RunReading[],
  pieces: readonly PieceReading[],
  more: Partial<DepthReadings> = {},
): DepthReadings => ({ runs, pieces, soundings: [], ...more });
const edit = <T extends { id: string }>(list: readonly T[], id: string, change: Partial<T>): T[] =>
  list.map((one) => (one.id === id ? { ...one, ...change } : one));
const piece = (solved: DepthSolution, id: string) => solved.pieces.find((one) => one.id === id)!;
const run = (solved: DepthSolution, id: string) => solved.runs.find((one) => one.id === id)!;
const worst = (findings: readonly Finding[]) =>
  [...findings].sort((x, y) => y.probability - x.probability)[0];
const near = (value: number, wanted: number, by: number, what = '') =>
  expect(Math.abs(value - wanted), `${what}: ${value} against ${wanted}`).toBeLessThan(by);
/** No piece of the hole lies farther from its true place than this, but for those named. */
const inPlace = (solved: DepthSolution, by: number, but: readonly string[] = []) => {
  for (const one of solved.pieces) {
    if (but.includes(one.id)) continue;
    const r = Number(one.run);
    near(one.bottom.value, coreAfter(r), by, `bottom of ${one.id}`);
  }
};

describe('a plain hole', () => {
  it('has every piece within 2 cm of its true place, and no finding', () => {
    const { runs, pieces } = plain(12);
    const solved = solveDepths(hole(runs, pieces));
    expect(solved.findings).toEqual([]);
    inPlace(solved, 0.02);
  });
});

describe("1. a run brings nothing, the next its ice with the scratches of the first one's catchers", () => {
  // run 5 brought nothing; run 6 brought 1.5 m, above it 0.1 m are lost; run 5's catchers gripped at 3.97 m
  const { runs, pieces } = plain(10);
  const top = coreAfter(4) + 0.1;
  const catching = edit(runs, '5', { catcherHeight: STUB });
  const without = [
    ...pieces.filter((one) => one.run !== '5' && one.run !== '6'),
    { id: '6-1', run: '6', length: 1.1, topBreak: 'loss' as const },
    { id: '6-2', run: '6', length: 0.4, topBreak: 'unsure' as const },
  ];
  const mark = { depth: bottomAfter(5) - STUB - top, byRun: '5' };
  const marked = edit(without, '6-1', { catcherMark: mark });
  it('lies where the scratches say, within 1.5 cm, with a spread of scratches and hole bottom (1.7 cm)', () => {
    const solved = solveDepths(hole(catching, marked));
    expect(solved.findings).toEqual([]);
    near(piece(solved, '6-1').top.value, top, 0.015);
    expect(piece(solved, '6-1').top.sd).toBeLessThan(0.017);
    near(run(solved, '5').stub.value, bottomAfter(5) - coreAfter(4), 0.03, 'ice left by run 5');
  });
  it('and without the scratches less is known', () => {
    const solved = solveDepths(hole(catching, without));
    expect(piece(solved, '6-1').top.sd).toBeGreaterThan(
      1.3 * piece(solveDepths(hole(catching, marked)), '6-1').top.sd,
    );
  });
  it("scratches of a later run on an earlier piece name the piece's run as wrong", () => {
    const solved = solveDepths(
      hole(catching, edit(without, '3-1', { catcherMark: { depth: 0.2, byRun: '5' } })),
    );
    expect(solved.findings[0]).toMatchObject({
      what: 'piece',
      which: '3-1',
      field: 'run',
      likely: 'run attributed wrongly',
      suggestedRun: '5',
    });
  });
});

describe('2. a stub', () => {
  const { runs, pieces } = plain(10);
  const broken = edit(edit(pieces, '6-1', { length: 0.499 }), '7-1', { length: 1.099 });
  it('of 0.33 m comes with the next run and lies in both', () => {
    const solved = solveDepths(hole(runs, broken));
    expect(solved.findings).toEqual([]);
    near(run(solved, '6').stub.value, STUB + 0.3, 0.03);
    near(piece(solved, '7-1').top.value, coreAfter(6) - 0.3, 0.02);
    inPlace(solved, 0.02, ['6-1']);
  });
  it('that the driller judged at 0.30 m ± 3 cm is known better than without', () => {
    const judged = edit(runs, '6', { leftInHole: { value: 0.3, sd: 0.03 } });
    const solved = solveDepths(hole(judged, broken));
    expect(solved.findings).toEqual([]);
    near(run(solved, '6').stub.value, STUB + 0.3, 0.03);
  });
});

describe('3. an overlap', () => {
  it("of 5 cm (more core than hole) is not let below the hole, and pieces don't overlap", () => {
    const { runs, pieces } = plain(10);
    const solved = solveDepths(hole(runs, edit(pieces, '6-1', { length: 0.849 })));
    for (let i = 1; i < solved.pieces.length; i++)
      expect(solved.pieces[i].top.value).toBeGreaterThanOrEqual(solved.pieces[i - 1].bottom.value - 1e-4);
    for (const one of solved.pieces)
      expect(one.bottom.value).toBeLessThanOrEqual(run(solved, one.run).holeBottom.value + 1e-3);
    inPlace(solved, 0.05, ['6-1']);
  });
});

describe('slips', () => {
  const { runs, pieces } = plain(14);
  it("4. 10 cm in a run's end is named, and nothing else moves by 1 cm", () => {
    const clean = solveDepths(hole(runs, pieces));
    const solved = solveDepths(hole(edit(runs, '8', { to: 6.5 }), pieces));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({ which: '8', field: 'to', likely: '10 cm', suggested: 6.4 });
    near(solved.findings[0].size, 0.1, 0.03);
    for (const [i, one] of solved.pieces.entries())
      near(one.bottom.value, clean.pieces[i].bottom.value, 0.01, one.id);
  });
  it.each([
    ['from', 6.59],
    ['to', 5.4],
  ] as const)("5. 1 m in a run's %s is named, and nothing else moves by 1 cm", (field, wrong) => {
    const clean = solveDepths(hole(runs, pieces));
    const solved = solveDepths(hole(edit(runs, '8', { [field]: wrong }), pieces));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({ which: '8', field, likely: '1 m' });
    expect(solved.findings[0].probability).toBeGreaterThan(0.9);
    for (const [i, one] of solved.pieces.entries())
      near(one.bottom.value, clean.pieces[i].bottom.value, 0.01, one.id);
  });
  it('6. swapped digits are named: 4.6 m for 6.4 m', () => {
    const solved = solveDepths(hole(edit(runs, '8', { to: 4.6 }), pieces));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({
      which: '8',
      field: 'to',
      likely: 'swapped digits',
      suggested: 6.4,
    });
    inPlace(solved, 0.02);
  });
  it('7. a piece logged twice is named', () => {
    const twice = pieces.flatMap((one) => (one.id === '8-1' ? [one, { ...one, id: 'again' }] : [one]));
    const solved = solveDepths(hole(runs, twice));
    expect(worst(solved.findings).likely).toBe('doubled piece');
    expect(['8-1', 'again']).toContain(worst(solved.findings).which);
    inPlace(solved, 0.03, ['8-1', 'again', '9-1']);
  });
});

describe('8. a zero that moved by 1.00 m', () => {
  const { runs, pieces } = plain(14);
  const higher = runs.map((one, i) =>
    i < 8 ? one : { ...one, from: cent(one.from! + 1), to: cent(one.to! + 1) },
  );
  const zeros = [
    { id: 'board', height: 0.35, sd: 0.003, fromRun: '1' },
    { id: 'board raised', height: 1.35, sd: 0.003, fromRun: '9' },
  ];
  it('unknown to anybody is found and reduced', () => {
    const solved = solveDepths(hole(higher, pieces));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({ what: 'run', which: '9', likely: 'zero changed' });
    near(solved.findings[0].size, 1, 0.05);
    inPlace(solved, 0.03);
  });
  it('and was measured changes nothing', () => {
    const solved = solveDepths(hole(higher, pieces, { zeros }));
    const still = solveDepths(hole(runs, pieces));
    expect(solved.findings).toEqual([]);
    for (const [i, one] of solved.pieces.entries())
      near(one.bottom.value, still.pieces[i].bottom.value, 0.003, one.id);
  });
  it('and a sounding from the new zero is reduced with it', () => {
    const soundings = [{ id: 's', afterRun: '12', depth: 10.59, sd: 0.03 }];
    const solved = solveDepths(hole(higher, pieces, { zeros, soundings }));
    expect(solved.findings).toEqual([]);
    inPlace(solved, 0.02);
  });
  it('but was written down as 0.10 m names the measured height', () => {
    const wrong = [zeros[0], { ...zeros[1], height: 0.45 }];
    const solved = solveDepths(hole(higher, pieces, { zeros: wrong }));
    expect(solved.findings[0]).toMatchObject({ what: 'zero check', which: 'board raised', field: 'height' });
    near(solved.findings[0].suggested!, 1.35, 0.05);
    inPlace(solved, 0.03);
  });
});

describe('10. a piece found two days later', () => {
  const { runs, pieces } = plain(14);
  const whole = pieces.flatMap((one): PieceReading[] =>
    one.id === '8-1'
      ? [
          { ...one, length: 0.35 },
          { id: '8-2', run: '8', length: 0.448, topBreak: 'fits', foundLater: true },
        ]
      : [one],
  );
  it('is missed before', () => {
    const { findings } = solveDepths(
      hole(
        runs,
        whole.filter((one) => one.id !== '8-2'),
      ),
    );
    expect(findings.map((one) => one.likely)).toContain('missing piece');
  });
  it('and in its place once it is there', () => {
    const solved = solveDepths(hole(runs, whole));
    expect(solved.findings).toEqual([]);
    near(piece(solved, '8-2').top.value, coreAfter(7) + 0.351, 0.02);
    inPlace(solved, 0.02, ['8-1']);
  });
  it('may lie above or below its neighbour where nobody knows: mean of both, and a spread that says so', () => {
    const unsure = edit(whole, '8-1', { orderUnsure: true });
    const solved = solveDepths(hole(runs, unsure));
    const sure = solveDepths(hole(runs, whole));
    const above = piece(sure, '8-1').top.value;
    near(piece(solved, '8-1').top.value, above + (0.448 + 0.001) / 2, 0.002);
    near(piece(solved, '8-2').top.value, above + (0.35 + 0.001) / 2, 0.002);
    near(piece(solved, '8-1').top.sd, 0.2245, 0.005);
    near(piece(solved, '9-1').top.value, piece(sure, '9-1').top.value, 1e-6);
  });
});

describe('11. a run under the wrong number', () => {
  const { runs, pieces } = plain(14);
  // sheets of runs 8 and 9 exchanged: lengths differ so that it matters
  const uneven = edit(edit(pieces, '8-1', { length: 0.699 }), '9-1', { length: 0.899 });
  const real = edit(edit(runs, '8', { to: 6.3 }), '9', { from: 6.29 });
  it('changes places with the other, pieces and all', () => {
    const exchanged = real.map((one) =>
      one.id === '8' ? { ...real[8], id: '8' } : one.id === '9' ? { ...real[7], id: '9' } : one,
    );
    const logged = edit(edit(pieces, '8-1', { length: 0.899 }), '9-1', { length: 0.699 });
    const solved = solveDepths(hole(exchanged, logged));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({
      what: 'run',
      which: '8',
      field: 'number',
      likely: 'run attributed wrongly',
      suggestedRun: '9',
    });
    const right = solveDepths(hole(real, uneven));
    expect(right.findings).toEqual([]);
    near(piece(solved, '8-1').bottom.value, piece(right, '9-1').bottom.value, 1e-6);
    near(piece(solved, '9-1').bottom.value, piece(right, '8-1').bottom.value, 1e-6);
    expect(solved.pieces.map((one) => one.id)).toEqual(logged.map((one) => one.id));
  });
  it('whose counter readings alone were exchanged keeps its pieces where they are', () => {
    // advances of 0.5 m and 1.1 m, told apart by the lengths
    const unlike = edit(edit(runs, '8', { to: 6.1 }), '9', { from: 6.09 });
    const core = edit(edit(pieces, '8-1', { length: 0.499 }), '9-1', { length: 1.099 });
    const exchanged = unlike.map((one) =>
      one.id === '8' ? { ...unlike[8], id: '8' } : one.id === '9' ? { ...unlike[7], id: '9' } : one,
    );
    const solved = solveDepths(hole(exchanged, core));
    expect(solved.findings[0]).toMatchObject({
      which: '8',
      field: 'number',
      likely: 'run attributed wrongly',
    });
    near(piece(solved, '8-1').bottom.value, 6.07, 0.02);
  });
  it('drilled as the fifth but numbered as the tenth moves there', () => {
    const numbered = [...runs.slice(0, 4), ...runs.slice(5, 10), runs[4], ...runs.slice(10)];
    const solved = solveDepths(hole(numbered, pieces));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({
      which: '5',
      likely: 'run attributed wrongly',
      suggestedRun: '4',
    });
    inPlace(solved, 0.02);
  });
  it('of a piece: the piece belongs to the neighbour', () => {
    const logged = pieces.flatMap((one): PieceReading[] =>
      one.id === '8-1'
        ? [one, { id: 'stray', run: '8', length: 0.42, topBreak: 'fits' }]
        : one.id === '9-1'
          ? [{ ...one, length: 0.378 }]
          : [one],
    );
    const solved = solveDepths(hole(runs, logged));
    expect(solved.findings[0]).toMatchObject({
      what: 'piece',
      which: 'stray',
      field: 'run',
      likely: 'run attributed wrongly',
      suggestedRun: '9',
    });
    inPlace(solved, 0.03, ['stray']);
    near(piece(solved, 'stray').bottom.value, coreAfter(8) + 0.421, 0.03);
  });
});

describe('12. crumbled core', () => {
  it('has its length from mass and density, and the rest closes', () => {
    const { runs, pieces } = plain(10);
    const crumbled = pieces.map(
      (one): PieceReading =>
        one.id === '6-1'
          ? {
              id: one.id,
              run: one.run,
              topBreak: one.topBreak,
              crumbledMassLength: { value: 0.76, sd: 0.05 },
            }
          : one,
    );
    const solved = solveDepths(hole(runs, crumbled));
    expect(solved.findings).toEqual([]);
    inPlace(solved, 0.03);
    near(piece(solved, '6-1').bottom.value - piece(solved, '6-1').top.value, 0.79, 0.03, 'its length');
  });
  it('that is out of place has no depth and moves nothing', () => {
    const { runs, pieces } = plain(10);
    const plug: PieceReading = { id: 'plug', run: '6', length: 0.3, topBreak: 'unsure', outOfPlace: true };
    const solved = solveDepths(hole(runs, [...pieces, plug]));
    expect(solved).toEqual(solveDepths(hole(runs, pieces)));
  });
});

describe('13. a run on one tray tape', () => {
  const { runs, pieces } = plain(10);
  const cuts = [0, 0.151, 0.302, 0.455, 0.61, 0.799];
  const parts = cuts.slice(1).map(
    (cut, i): PieceReading => ({
      id: `6-${i + 1}`,
      run: '6',
      length: Math.round(1000 * (cut - cuts[i])) / 1000,
      topBreak: 'fits',
    }),
  );
  const others = pieces.filter((one) => one.run !== '6');
  const onTray = parts.map(({ id, run, topBreak }): PieceReading => ({ id, run, topBreak }));
  const trayRuns = edit(runs, '6', {
    trayTape: { breaks: onTray.map(({ id }, i) => ({ piece: id, top: cuts[i], bottom: cuts[i + 1] })) },
  });
  it("gives lengths as positions, and knows the run's core better than five lengths do", () => {
    const solved = solveDepths(hole(trayRuns, [...others, ...onTray]));
    const singly = solveDepths(hole(runs, [...others, ...parts]));
    expect(solved.findings).toEqual([]);
    for (const [i, one] of onTray.entries()) {
      const { top, bottom } = piece(solved, one.id);
      near(bottom.value - top.value, cuts[i + 1] - cuts[i], 0.003, one.id);
      expect(bottom.sd).toBeLessThanOrEqual(piece(singly, one.id).bottom.sd + 1e-6);
    }
    inPlace(
      solved,
      0.02,
      onTray.slice(0, -1).map((one) => one.id),
    );
  });
});

describe('14. a check of the cable against a mark', () => {
  // the counter shows 1.0035 m for every metre
  const long = plain(60);
  const runs = long.runs.map((one) => ({
    ...one,
    from: cent(1.0035 * one.from!),
    to: cent(1.0035 * one.to!),
  }));
  // every break is unsure, so that the lengths alone say little of the scale
  const pieces = long.pieces.map((one) => ({ ...one, topBreak: 'unsure' as const }));
  const check = { id: 'c', afterRun: '60', counter: 46.16, mark: 46, sd: 0.005 };
  it("brings the depth error at the bottom down to the check's own", () => {
    const before = run(solveDepths(hole(runs, pieces)), '60').holeBottom;
    const solved = solveDepths(hole(runs, pieces, { cableChecks: [check] }));
    const after = run(solved, '60').holeBottom;
    expect(solved.findings).toEqual([]);
    expect(after.sd).toBeLessThan(0.5 * before.sd);
    // 5 mm of the mark, 7 mm of the counter and its step, 1 cm of the trip's offset
    expect(after.sd).toBeLessThan(0.02);
    near(after.value, bottomAfter(60), 0.03);
    near(solved.learned.cableScale.value, 0.0035, 4e-4);
  });
  it('that is off by 1 m is named and bends nothing', () => {
    const wrong = solveDepths(
      hole(runs, pieces, { cableChecks: [check, { ...check, id: 'w', counter: 47.16 }] }),
    );
    expect(wrong.findings.length).toBe(1);
    expect(wrong.findings[0]).toMatchObject({
      what: 'cable check',
      which: 'w',
      field: 'counter',
      likely: '1 m',
    });
    near(run(wrong, '60').holeBottom.value, bottomAfter(60), 0.03);
  });
  it('says less of the hole above it where the scale may drift', () => {
    const still = solveDepths(hole(runs, pieces, { cableChecks: [check] }));
    const { assumptions } = still;
    const drifting = solveDepths(hole(runs, pieces, { cableChecks: [check] }), {
      ...assumptions,
      cableScaleDriftSd: 2e-4,
    });
    expect(run(drifting, '25').holeBottom.sd).toBeGreaterThan(run(still, '25').holeBottom.sd);
    near(run(drifting, '60').holeBottom.value, bottomAfter(60), 0.04);
  });
});

describe('lengths measured again', () => {
  const { runs, pieces } = plain(12);
  it('of three the one that disagrees is named and left out', () => {
    const solved = solveDepths(hole(runs, edit(pieces, '6-1', { length: 0.899, lengths: [0.8, 0.799] })));
    expect(solved.findings).toMatchObject([
      { what: 'piece', which: '6-1', field: 'length', likely: '10 cm', suggested: 0.7995 },
    ]);
    inPlace(solved, 0.02);
  });
  it('of two that disagree the one that all else supports is taken, the other named', () => {
    const solved = solveDepths(hole(runs, edit(pieces, '6-1', { length: 0.799, lengths: [1.799] })));
    expect(solved.findings.length).toBe(1);
    expect(solved.findings[0]).toMatchObject({
      which: '6-1',
      field: 'length',
      likely: '1 m',
      suggested: 0.799,
    });
    expect(solved.findings[0].probability).toBeGreaterThan(0.9);
    inPlace(solved, 0.02);
  });
});

describe('the barrel', () => {
  it('of 1.10 m cannot hold 0.8 m that were left and 0.8 m that were drilled: what is too much is lost above', () => {
    const { runs, pieces } = plain(10);
    // run 5 brought nothing, run 6 its own 0.8 m and 0.29 m of what was left
    const core = pieces
      .filter((one) => one.run !== '5')
      .map((one) => (one.id === '6-1' ? { ...one, length: 1.06, topBreak: 'loss' as const } : one));
    const barrel = runs.map((one) => ({ ...one, barrelLength: 1.1 }));
    const solved = solveDepths(hole(barrel, core));
    // 4.8 m less 1.1 m is where its core begins at the highest, and the rest of the hole is where it was
    near(piece(solved, '6-1').top.value, bottomAfter(6) - 1.1, 0.05);
    expect(piece(solved, '6-1').top.value).toBeGreaterThan(bottomAfter(6) - 1.1 - 0.02);
    inPlace(solved, 0.03);
  });
  it('of 5 m changes nothing', () => {
    const { runs, pieces } = plain(10);
    expect(
      solveDepths(
        hole(
          runs.map((one) => ({ ...one, barrelLength: 5 })),
          pieces,
        ),
      ),
    ).toEqual(solveDepths(hole(runs, pieces)));
  });
});
