import quadprog from 'quadprog';
import { describe, expect, it } from 'vitest';
import { nothingAside } from './aside.ts';
import { type DepthAssumptions, defaultAssumptions } from './assumptions.ts';
import { bounds } from './bounds.ts';
import { makeJob } from './model.ts';
import { order } from './order.ts';
import type { DepthReadings } from './readings.ts';
import { solveDepths } from './solve.ts';
import { readingVariance, tolerances } from './tolerances.ts';

/** Invented; the second run's counter contradicts its core a little, so that a stub of 0 is pressed on. */
const readings: DepthReadings = {
  runs: [
    { id: '1', from: 0, to: 0.8 },
    { id: '2', from: 0.8, to: 1.6 },
    { id: '3', from: 1.59, to: 2.45 },
  ],
  pieces: [
    { id: 'a', run: '1', length: 0.79, topBreak: 'fits' },
    { id: 'b', run: '2', length: 0.83, topBreak: 'fits' },
    { id: 'c', run: '3', length: 0.41, topBreak: 'unsure' },
    { id: 'd', run: '3', length: 0.43, topBreak: 'fits' },
  ],
  soundings: [],
};
/** No scale errors: every constraint is then a difference, and the bounds are exact. */
const plain: DepthAssumptions = {
  ...defaultAssumptions,
  cableScaleSd: 1e-9,
  cableScaleDriftSd: 0,
  tapeScaleSd: 1e-9,
};

// unknowns: hole bottoms 1..3, then top and bottom of a..d; quadprog wants 1-based arrays and A' x >= b
const names = ['D1', 'D2', 'D3', 'ta', 'ba', 'tb', 'bb', 'tc', 'bc', 'td', 'bd'];
const n = names.length;
const at = (name: string) => names.indexOf(name) + 1;
type Row = { readonly terms: readonly (readonly [string, number])[]; readonly least: number };
const solveQp = (quadratic: number[][], linear: number[], rows: readonly Row[]) => {
  const matrix: number[][] = Array.from({ length: n + 1 }, () => new Array<number>(rows.length + 1).fill(0));
  const least: number[] = new Array<number>(rows.length + 1).fill(0);
  rows.forEach((row, j) => {
    for (const [name, value] of row.terms) matrix[at(name)][j + 1] = value;
    least[j + 1] = row.least;
  });
  const result = quadprog.solveQP(quadratic, linear, matrix, least);
  expect(result.message).toBe('');
  return result.solution;
};
const zeros = () => Array.from({ length: n + 1 }, () => new Array<number>(n + 1).fill(0));

const f = 3;
const stray = f * Math.sqrt(readingVariance(plain) + plain.tripOffsetSd ** 2);
const loose = f * (plain.lengthSdFirn + plain.runBiasSd);
const rows: Row[] = [];
const atLeast = (least: number, ...terms: (readonly [string, number])[]) => rows.push({ terms, least });
const between = (low: number, high: number, ...terms: (readonly [string, number])[]) => {
  atLeast(low, ...terms);
  atLeast(-high, ...terms.map(([name, value]) => [name, -value] as const));
};
readings.runs.forEach((run, i) => {
  between((run.to as number) - stray, (run.to as number) + stray, [`D${i + 1}`, 1]);
  if (i > 0) {
    atLeast((run.from as number) - stray, [`D${i}`, 1]);
    atLeast(0, [`D${i + 1}`, 1], [`D${i}`, -1]);
  }
});
let last: string | undefined;
for (const piece of readings.pieces) {
  const top = `t${piece.id}`;
  const bottom = `b${piece.id}`;
  const length = piece.length as number;
  between(length - loose, length + loose, [bottom, 1], [top, -1]);
  if (last === undefined)
    between(-f * tolerances.surfaceSd, plain.fitGapMax + f * tolerances.surfaceSd, [top, 1]);
  else if (piece.topBreak === 'fits') between(0, plain.fitGapMax, [top, 1], [last, -1]);
  else atLeast(0, [top, 1], [last, -1]);
  last = bottom;
}
atLeast(0, ['D1', 1], ['ba', -1]);
atLeast(0, ['D2', 1], ['bb', -1]);
atLeast(0, ['D3', 1], ['bd', -1]);

describe('bounds against quadprog (a dense quadratic program)', () => {
  const found = bounds(makeJob(order(readings), plain, tolerances), nothingAside);
  const extreme = (name: string, sign: 1 | -1): number => {
    // a push so strong that the constraints alone decide
    const quadratic = zeros();
    for (let i = 1; i <= n; i++) quadratic[i][i] = 1e-4;
    const linear = new Array<number>(n + 1).fill(0);
    linear[at(name)] = sign * 1e3;
    return solveQp(quadratic, linear, rows)[at(name)];
  };
  it('min and max of every depth are those the constraints allow', () => {
    for (const [i, id] of ['a', 'b', 'c', 'd'].entries()) {
      expect(found.topMin[i], `top ${id}`).toBeCloseTo(extreme(`t${id}`, -1), 6);
      expect(found.topMax[i], `top ${id}`).toBeCloseTo(extreme(`t${id}`, 1), 6);
      expect(found.bottomMin[i], `bottom ${id}`).toBeCloseTo(extreme(`b${id}`, -1), 6);
      expect(found.bottomMax[i], `bottom ${id}`).toBeCloseTo(extreme(`b${id}`, 1), 6);
    }
    for (const r of [1, 2, 3]) {
      expect(found.holeMin[r], `hole ${r}`).toBeCloseTo(extreme(`D${r}`, -1), 6);
      expect(found.holeMax[r], `hole ${r}`).toBeCloseTo(extreme(`D${r}`, 1), 6);
    }
  });
});

describe('solveDepths against quadprog', () => {
  it('the most probable depths of the same model lie within 3.5 standard deviations of the means, inside min and max', () => {
    // mode with the means at their learned values: squares of the readings, linear cost of stubs and gaps
    const solved = solveDepths(readings, plain);
    const quadratic = zeros();
    const linear = new Array<number>(n + 1).fill(0);
    const square = (value: number, variance: number, ...terms: (readonly [string, number])[]) => {
      for (const [a, x] of terms) {
        for (const [b, y] of terms) quadratic[at(a)][at(b)] += (x * y) / variance;
        linear[at(a)] += (x * value) / variance;
      }
    };
    for (let i = 1; i <= n; i++) quadratic[i][i] += 1e-6;
    readings.runs.forEach((run, i) => {
      square(run.to as number, readingVariance(plain) + plain.tripOffsetSd ** 2, [`D${i + 1}`, 1]);
    });
    for (const piece of readings.pieces)
      square(
        piece.length as number,
        plain.lengthSdFirn ** 2 + plain.runBiasSd ** 2,
        [`b${piece.id}`, 1],
        [`t${piece.id}`, -1],
      );
    const cost = (rate: number, ...terms: (readonly [string, number])[]) => {
      for (const [name, x] of terms) linear[at(name)] -= rate * x;
    };
    const stub = 1 / solved.learned.stubMean.value;
    cost(stub, ['D1', 1], ['ba', -1]);
    cost(stub, ['D2', 1], ['bb', -1]);
    cost(stub, ['D3', 1], ['bd', -1]);
    cost(1 / solved.learned.unsureGapMean.value, ['tc', 1], ['bb', -1]);
    const mode = solveQp(quadratic, linear, rows);
    for (const piece of solved.pieces)
      for (const [side, estimate] of [
        ['t', piece.top],
        ['b', piece.bottom],
      ] as const) {
        const value = mode[at(`${side}${piece.id}`)];
        expect(Math.abs(value - estimate.value) / estimate.sd, `${side}${piece.id}`).toBeLessThan(3.5);
        expect(value).toBeGreaterThanOrEqual(estimate.min - 1e-6);
        expect(value).toBeLessThanOrEqual(estimate.max + 1e-6);
      }
  });
});
