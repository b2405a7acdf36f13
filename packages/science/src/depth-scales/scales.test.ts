import { describe, expect, it } from 'vitest';
import type { DepthReadings } from '../depth/readings.ts';
import type { DepthSolution, Estimate } from '../depth/solution.ts';
import { solveDepths } from '../depth/solve.ts';
import { drillerScale, loggerScale, solvedScale, tiedScale } from './scales.ts';

/** Invented: three runs, one estimated loss, a saw cut. */
const readings: DepthReadings = {
  runs: [
    { id: '1', from: 0, to: 0.9 },
    { id: '2', from: 0.89, to: 1.8 },
    { id: '3', from: 1.79, to: 2.7 },
  ],
  pieces: [
    { id: '1-1', run: '1', length: 0.86, topBreak: 'unsure' },
    { id: '2-1', run: '2', length: 0.5, topBreak: 'fits' },
    { id: '2-2', run: '2', length: 0.37, topBreak: 'loss', loss: 0.02 },
    { id: '3-1', run: '3', length: 0.4, topBreak: 'fits' },
    { id: '3-2', run: '3', length: 0.48, topBreak: 'sawn', kerf: 0.003 },
  ],
  soundings: [],
};
const solution = solveDepths(readings);
const rounded = (values: readonly (number | null)[]) =>
  values.map((value) => (value === null ? null : Math.round(value * 1e6) / 1e6));

describe('loggerScale', () => {
  it('adds up lengths and gaps as logged, by hand', () => {
    const { at, endsAt, sd } = loggerScale('B', readings, solution);
    expect(rounded(at)).toEqual([0, 0.86, 0.86, 1.36, 1.38, 1.75, 1.75, 2.15, 2.153, 2.633]);
    expect(endsAt).toBeNull();
    expect(sd).toBeNull();
  });

  const unmeasured = (ids: readonly string[], runs = readings.runs): DepthReadings => ({
    ...readings,
    runs,
    pieces: readings.pieces.map(({ length, ...piece }) =>
      ids.includes(piece.id) ? piece : { ...piece, length: length as number },
    ),
  });

  it('gives pieces that were not measured what the advance of their run leaves over', () => {
    // run 2 advanced by 0.91 m: less 0.02 of lost ice 0.89, half each
    const some = unmeasured(['2-1', '2-2']);
    const { at, filled, endsAt } = loggerScale('B', some, solveDepths(some));
    expect(rounded(at)).toEqual([0, 0.86, 0.86, 1.305, 1.325, 1.77, 1.77, 2.17, 2.173, 2.653]);
    expect(filled).toEqual(['2-1', '2-2']);
    expect(endsAt).toBeNull();
  });

  it('ends where nothing says how long a piece is, and says at which one', () => {
    const some = unmeasured(['2-2'], [readings.runs[0], { id: '2' }, readings.runs[2]]);
    const { at, endsAt } = loggerScale('B', some, solveDepths(some));
    expect(rounded(at)).toEqual([0, 0.86, 0.86, 1.36, 1.38, null, null, null, null, null]);
    expect(endsAt).toBe('2-2');
  });

  it('takes a length from the tray tape, or from the mass of crumbled core, where no other was read', () => {
    const other: DepthReadings = {
      runs: [
        {
          id: '1',
          from: 0,
          to: 0.9,
          trayTape: { breaks: [{ piece: 'a', top: 0.1, bottom: 0.5 }] },
        },
      ],
      pieces: [
        { id: 'a', run: '1', topBreak: 'fits' },
        { id: 'b', run: '1', topBreak: 'fits', crumbledMassLength: { value: 0.44, sd: 0.03 } },
      ],
      soundings: [],
    };
    const ends = solveDepths({
      ...other,
      runs: [{ id: '1', from: 0, to: 0.9 }],
      pieces: [
        { id: 'a', run: '1', topBreak: 'fits', length: 0.4 },
        { id: 'b', run: '1', topBreak: 'fits', length: 0.44 },
      ],
    });
    expect(rounded(loggerScale('B', other, ends).at)).toEqual([0, 0.4, 0.4, 0.84]);
  });

  it('of a hole begun at depth counts from the first reading of the counter', () => {
    const deep: DepthReadings = {
      runs: [{ id: '9', from: 61.2, to: 62.05 }],
      pieces: [{ id: 'a', run: '9', length: 0.83, topBreak: 'fits' }],
      soundings: [],
    };
    expect(rounded(loggerScale('B', deep, solveDepths(deep)).at)).toEqual([61.2, 62.03]);
  });
});

describe('drillerScale', () => {
  const end = (value: number): Estimate => ({ value, sd: 0.01, min: value, max: value });
  /** The solver's part, given by hand, so that the driller's depths are known. */
  const given = (
    bottoms: readonly number[],
    ends: readonly (readonly [number, number])[],
    findings: DepthSolution['findings'] = [],
  ): DepthSolution => ({
    ...solution,
    findings,
    runs: bottoms.map((z, i) => ({ id: `${i + 1}`, holeBottom: end(z), stub: end(0) })),
    pieces: ends.map(([top, bottom], i) => ({
      id: `p${i}`,
      run: `${i + 1}`,
      top: end(top),
      bottom: end(bottom),
    })),
  });
  const counters = (...to: readonly number[]): DepthReadings => ({
    runs: to.map((depth, i) => ({ id: `${i + 1}`, to: depth })),
    pieces: [],
    soundings: [],
  });

  it('stands at the counter where each run ended, and lies on a line in between', () => {
    // the cable reads 1 % long
    const solved = given(
      [1, 2, 3],
      [
        [0.1, 0.9],
        [1, 2],
        [2, 2.5],
      ],
    );
    const { at, leftOut } = drillerScale('B', counters(1.01, 2.02, 3.03), solved);
    expect(rounded(at)).toEqual([0.101, 0.909, 1.01, 2.02, 2.02, 2.525]);
    expect(leftOut).toEqual([]);
  });

  it('leaves out a reading that the solution sets aside, and one that would make the counter go back', () => {
    const finding = {
      what: 'run',
      which: '2',
      field: 'to',
      size: 1,
      likely: '1 m',
      probability: 0.99,
      detectable: 0.1,
    } as const;
    const ends = [
      [0, 1],
      [1, 2],
      [2, 3],
    ] as const;
    const aside = drillerScale('B', counters(1, 3.02, 3), given([1, 2, 3], ends, [finding]));
    expect(aside.leftOut).toEqual(['2']);
    expect(rounded(aside.at)).toEqual([0, 1, 1, 2, 2, 3]);
    const four = [...ends, [3, 4]] as const;
    const back = drillerScale('B', counters(1, 2, 0.3, 4), given([1, 2, 3, 4], four));
    expect(back.leftOut).toEqual(['3']);
    expect(rounded(back.at)).toEqual([0, 1, 1, 2, 2, 3, 3, 4]);
  });

  it('of a hole whose counter was never read does not reach any piece', () => {
    const silent = { ...counters(), runs: [{ id: '1' }] };
    expect(drillerScale('B', silent, given([1], [[0, 1]])).at).toEqual([null, null]);
  });
});

describe('solvedScale', () => {
  it('holds the solved depths with their doubt, and never goes up', () => {
    const { at, sd, places } = solvedScale('B', solution, 'v1');
    expect(at[3]).toBe(solution.pieces[1].bottom.value);
    expect(sd?.[3]).toBe(solution.pieces[1].bottom.sd);
    expect(places[3]).toEqual({ piece: '2-1', run: '2', end: 'bottom' });
    at.forEach((depth, i) => {
      if (i > 0) expect(depth as number).toBeGreaterThanOrEqual(at[i - 1] as number);
    });
  });
});

describe('tiedScale', () => {
  const logger = loggerScale('B', readings, solution);

  it('is a line between its ties, and does not reach beyond them', () => {
    // bags of half a metre, packed from the logger's 0.86 m on
    const bags = tiedScale({ name: 'bag interval' }, logger, [
      { depth: 2, base: 1.86 },
      { depth: 1, base: 0.86 },
    ]);
    expect(rounded(bags.at)).toEqual([null, 1, 1, 1.5, 1.52, 1.89, 1.89, null, null, null]);
  });

  it('refuses ties that go back, and too few', () => {
    const scale = { name: 'laboratory', of: 'ions' } as const;
    expect(() => tiedScale(scale, logger, [{ depth: 1, base: 1 }])).toThrow(
      /laboratory ions.*fewer than two ties/,
    );
    expect(() =>
      tiedScale(scale, logger, [
        { depth: 1, base: 1 },
        { depth: 0.5, base: 2 },
      ]),
    ).toThrow(/correct the one that is out of order/);
  });
});
