import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import type { DepthReadings } from './readings.ts';
import { simulateSeason, usualPlan } from './season.suite.ts';
import type { DepthSolution, Estimate } from './solution.ts';
import { solveDepths } from './solve.ts';

const season = (seed: number, runs = 40): DepthReadings =>
  simulateSeason(seeded(seed), { ...usualPlan, runs, emptyShare: 0, longStubShare: 0 }).readings;

const estimates = (solution: DepthSolution): Estimate[] => [
  ...solution.runs.flatMap((run) => [run.holeBottom, run.stub]),
  ...solution.pieces.flatMap((piece) => [piece.top, piece.bottom]),
];
const run = (solution: DepthSolution, id: string) => solution.runs.find((one) => one.id === id)!;
const piece = (solution: DepthSolution, id: string) => solution.pieces.find((one) => one.id === id)!;

describe('solveDepths on odd readings', () => {
  it('of nothing gives nothing, and the first guesses of what is learned', () => {
    const solved = solveDepths({ runs: [], pieces: [], soundings: [] });
    expect(solved.runs).toEqual([]);
    expect(solved.pieces).toEqual([]);
    expect(solved.findings).toEqual([]);
    expect(solved.learned.cableScale.sd).toBeCloseTo(0.004, 9);
  });
  it.each([
    ['a run without any reading', { runs: [{ id: '1' }], pieces: [], soundings: [] }],
    [
      'a piece without a length',
      { runs: [{ id: '1', to: 0.8 }], pieces: [{ id: 'a', run: '1', topBreak: 'fits' }], soundings: [] },
    ],
    [
      'a loss without an estimate',
      {
        runs: [{ id: '1', from: 0 }],
        pieces: [{ id: 'a', run: '1', length: 0.5, topBreak: 'loss' }],
        soundings: [],
      },
    ],
    [
      'a sounding alone',
      { runs: [{ id: '1' }], pieces: [], soundings: [{ id: 's', afterRun: '1', depth: 1.1, sd: 0.05 }] },
    ],
    [
      'a hole begun at depth',
      {
        runs: [{ id: '9', from: 61.2, to: 62.05 }],
        pieces: [{ id: 'a', run: '9', length: 0.83, topBreak: 'fits' }],
        soundings: [],
      },
    ],
    [
      'readings that contradict each other',
      {
        runs: [
          { id: '1', from: 0, to: 0.8 },
          { id: '2', from: 5, to: 0.1 },
        ],
        pieces: [{ id: 'a', run: '1', length: 3, topBreak: 'fits' }],
        soundings: [],
      },
    ],
  ] as [string, DepthReadings][])('of %s gives finite numbers in order', (_, readings) => {
    for (const { value, sd, min, max } of estimates(solveDepths(readings))) {
      for (const number of [value, sd, min, max]) expect(Number.isFinite(number)).toBe(true);
      expect(min).toBeLessThanOrEqual(value);
      expect(max).toBeGreaterThanOrEqual(value);
    }
  });
});

describe('solveDepths on cases made by hand', () => {
  it('a run brings nothing and the next brings its ice: the ice lies in both runs', () => {
    const solved = solveDepths({
      runs: [
        { id: '1', from: 0, to: 0.8 },
        { id: '2', from: 0.79, to: 1.62 },
        { id: '3', from: 1.61, to: 2.43 },
      ],
      pieces: [
        { id: 'a', run: '1', length: 0.78, topBreak: 'fits' },
        { id: 'b', run: '3', length: 1.63, topBreak: 'fits' },
      ],
      soundings: [],
    });
    expect(solved.findings).toEqual([]);
    expect(piece(solved, 'b').top.value).toBeCloseTo(0.782, 2);
    expect(piece(solved, 'b').bottom.value).toBeCloseTo(2.412, 1);
    expect(run(solved, '2').stub.value).toBeGreaterThan(0.7);
  });

  it('a stub is left and comes with the next run: it belongs above, no slip is named', () => {
    const solved = solveDepths({
      runs: [
        { id: '1', from: 0, to: 0.8 },
        { id: '2', from: 0.8, to: 1.6 },
        { id: '3', from: 1.6, to: 2.4 },
      ],
      pieces: [
        { id: 'a', run: '1', length: 0.78, topBreak: 'fits' },
        { id: 'b', run: '2', length: 0.52, topBreak: 'fits' },
        { id: 'c', run: '3', length: 1.08, topBreak: 'fits' },
      ],
      soundings: [],
    });
    expect(solved.findings).toEqual([]);
    expect(run(solved, '2').stub.value).toBeGreaterThan(0.25);
    expect(piece(solved, 'c').top.value).toBeLessThan(1.33);
  });

  it('more core than hole (an overlap) is not let below the hole bottom', () => {
    const solved = solveDepths({
      runs: [
        { id: '1', from: 0, to: 0.8 },
        { id: '2', from: 0.8, to: 1.6 },
      ],
      pieces: [
        { id: 'a', run: '1', length: 0.82, topBreak: 'fits' },
        { id: 'b', run: '2', length: 0.81, topBreak: 'fits' },
      ],
      soundings: [],
    });
    for (const r of ['1', '2']) {
      const last = solved.pieces.filter((one) => one.run === r).at(-1)!;
      expect(last.bottom.value).toBeLessThanOrEqual(run(solved, r).holeBottom.value);
    }
  });
});

describe('solveDepths names slips in a season', () => {
  const clean = season(18);
  const at = 20;
  const changed = (i: number, field: 'from' | 'to', value: number): DepthReadings => ({
    ...clean,
    runs: clean.runs.map((one, j) => (j === i ? { ...one, [field]: value } : one)),
  });
  const cent = (value: number) => Math.round(value * 100) / 100;

  it('none where there is none', () => {
    expect(solveDepths(clean).findings).toEqual([]);
  });
  it('10 cm too little at the end of a run', () => {
    const [finding] = solveDepths(changed(at, 'to', cent(clean.runs[at].to! - 0.1))).findings;
    expect(finding).toMatchObject({ what: 'run', which: clean.runs[at].id, field: 'to', likely: '10 cm' });
    expect(finding.suggested).toBeCloseTo(clean.runs[at].to!, 6);
    expect(finding.probability).toBeGreaterThan(0.5);
  });
  it.each([1, -1])('%d m at the end of a run, and the depths hardly move', (by) => {
    const solved = solveDepths(changed(at, 'to', cent(clean.runs[at].to! + by)));
    expect(solved.findings[0]).toMatchObject({ which: clean.runs[at].id, field: 'to', likely: '1 m' });
    expect(Math.abs(solved.findings[0].size - by)).toBeLessThan(0.1);
    expect(solved.findings.length).toBe(1);
    const before = solveDepths(clean);
    solved.pieces.forEach((one, i) => {
      expect(Math.abs(one.bottom.value - before.pieces[i].bottom.value)).toBeLessThan(
        2 * before.pieces[i].bottom.sd,
      );
    });
  });
  it('swapped digits', () => {
    const right = clean.runs[at].to!;
    const text = right.toFixed(2);
    const point = text.indexOf('.');
    const digits = [...text];
    [digits[point - 1], digits[point + 1]] = [digits[point + 1], digits[point - 1]];
    const [finding] = solveDepths(changed(at, 'to', Number(digits.join('')))).findings;
    expect(finding).toMatchObject({ which: clean.runs[at].id, field: 'to', likely: 'swapped digits' });
    expect(finding.suggested).toBeCloseTo(right, 6);
  });
  it('1 m too much in the length of a piece, among runs that close well', () => {
    const runs = Array.from({ length: 12 }, (_, i) => ({
      id: `${i + 1}`,
      from: cent(0.9 * i),
      to: cent(0.9 * (i + 1)),
    }));
    const pieces = runs.map(({ id }) => ({
      id: `p${id}`,
      run: id,
      length: id === '7' ? 1.895 : 0.895,
      topBreak: 'fits' as const,
    }));
    const { findings } = solveDepths({ runs, pieces, soundings: [] });
    expect(findings.length).toBe(1);
    expect(findings[0]).toMatchObject({ which: 'p7', field: 'length', likely: '1 m', suggested: 0.895 });
  });
  it('a piece logged twice', () => {
    const other = season(14);
    const i = other.pieces.findIndex((one) => Number(one.run) > at && one.length! > 0.3);
    const pieces = [...other.pieces];
    pieces.splice(i + 1, 0, { ...pieces[i], id: 'again', topBreak: 'fits' });
    const { findings } = solveDepths({ ...other, pieces });
    expect(
      findings.some((one) => one.likely === 'doubled piece' && [pieces[i].id, 'again'].includes(one.which)),
    ).toBe(true);
  });
  it.each([1, -1])('the zero moved by %d m: later readings are kept and reduced', (by) => {
    const runs = clean.runs.map((one, i) =>
      i < at ? one : { ...one, from: cent(one.from! + by), to: cent(one.to! + by) },
    );
    const { findings } = solveDepths({ ...clean, runs });
    expect(findings[0]).toMatchObject({ what: 'run', which: clean.runs[at].id, likely: 'zero changed' });
    expect(Math.abs(findings[0].size - by)).toBeLessThan(0.1);
  });
  it('a sounding 1 m too deep', () => {
    const soundings = clean.soundings.map((one, i) => (i === 1 ? { ...one, depth: one.depth + 1 } : one));
    const { findings } = solveDepths({ ...clean, soundings });
    expect(findings[0]).toMatchObject({ what: 'sounding', which: soundings[1].id, field: 'depth' });
    expect(Math.abs(findings[0].size - 1)).toBeLessThan(0.2);
  });
});

describe('solveDepths holds on any season (fast-check)', () => {
  const seeds = fc.integer({ min: 1, max: 1e6 });
  it('tops lie above bottoms, means between min and max, spreads are positive', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const solved = solveDepths(season(seed, 25));
        for (const one of solved.pieces) expect(one.top.value).toBeLessThanOrEqual(one.bottom.value);
        for (const { value, sd, min, max } of estimates(solved)) {
          expect(sd).toBeGreaterThan(0);
          expect(min).toBeLessThanOrEqual(value);
          expect(max).toBeGreaterThanOrEqual(value);
        }
      }),
      { numRuns: 25, seed: 7 },
    );
  });
  it('order of soundings, and of pieces of different runs, does not matter', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const readings = season(seed, 20);
        const mixed = {
          ...readings,
          soundings: [...readings.soundings].reverse(),
          pieces: [...readings.pieces].sort((a, b) => Number(b.run) - Number(a.run)),
        };
        const one = solveDepths(readings);
        const other = solveDepths(mixed);
        one.pieces.forEach((solved, i) => {
          expect(other.pieces[i].id).toBe(solved.id);
          expect(Math.abs(other.pieces[i].bottom.value - solved.bottom.value)).toBeLessThan(1e-9);
        });
      }),
      { numRuns: 10, seed: 7 },
    );
  });
  it('a sounding that knows nothing (1 km) changes nothing', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const readings = season(seed, 20);
        const more = {
          ...readings,
          soundings: [...readings.soundings, { id: 'vague', afterRun: '9', depth: 3, sd: 1000 }],
        };
        const one = solveDepths(readings);
        const other = solveDepths(more);
        one.pieces.forEach((solved, i) => {
          expect(
            Math.abs(other.pieces[i].bottom.value - solved.bottom.value) / solved.bottom.sd,
          ).toBeLessThan(0.05);
        });
      }),
      { numRuns: 10, seed: 7 },
    );
  });
  it('the same readings give the same numbers', () => {
    const readings = season(99);
    expect(JSON.stringify(solveDepths(readings))).toBe(JSON.stringify(solveDepths(readings)));
  });
});
