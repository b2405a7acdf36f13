import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { align, alignmentCost, pathCount } from './align.ts';

const apart = (q: readonly number[], r: readonly number[]) => (i: number, j: number) => Math.abs(q[i] - r[j]);

/** Every path, one by one. */
const cheapest = (n: number, m: number, cost: (i: number, j: number) => number, w: number) => {
  let [least, paths] = [Number.POSITIVE_INFINITY, 0];
  const walk = (i: number, j: number, sum: number): void => {
    if (i === n - 1 && j === m - 1) {
      least = Math.min(least, sum);
      paths += 1;
      return;
    }
    if (i + 1 < n) walk(i + 1, j, sum + cost(i + 1, j));
    if (j + 1 < m) walk(i, j + 1, sum + cost(i, j + 1));
    if (i + 1 < n && j + 1 < m) walk(i + 1, j + 1, sum + w * cost(i + 1, j + 1));
  };
  walk(0, 0, cost(0, 0));
  return { least, paths };
};

describe('alignmentCost', () => {
  // printed in the test file of a general statistics package: cost 2 and 1683 paths
  it('6 by 6 ones with a row and a column of nothing: 2 by both patterns', () => {
    const cost = (i: number, j: number) => (i === 1 && j === 4 ? 0.01 : i === 1 || j === 4 ? 0 : 1);
    expect(alignmentCost(6, 6, cost, { diagonal: 1 })).toBe(2);
    expect(alignmentCost(6, 6, cost, { diagonal: 2 })).toBe(2);
  });
  // recomputed in the project's sheet
  it('0 1 3 2 0 1 beside 0 2 3 1 1: 3, or 5 where diagonals count twice, 0.4545 a count', () => {
    const [q, r] = [
      [0, 1, 3, 2, 0, 1],
      [0, 2, 3, 1, 1],
    ];
    expect(alignmentCost(6, 5, apart(q, r), { diagonal: 1 })).toBe(3);
    const twice = align(6, 5, apart(q, r), { diagonal: 2 });
    expect(twice.cost).toBe(5);
    expect(twice.normalised).toBeCloseTo(0.4545454545, 10);
  });
  it('a series against itself drawn out costs nothing', () => {
    expect(alignmentCost(6, 8, apart([1, 2, 3, 4, 3, 2], [1, 1, 2, 3, 4, 4, 3, 2]), { diagonal: 1 })).toBe(0);
  });
  it('is the cheapest of all paths, and the path adds up to it', () => {
    const series = fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(series, series, fc.constantFrom(1 as const, 2 as const), (q, r, diagonal) => {
        const cost = apart(q, r);
        const { cost: found, path } = align(q.length, r.length, cost, { diagonal });
        const added = path.reduce((sum, [i, j], k) => {
          const isDiagonal = k > 0 && path[k - 1][0] < i && path[k - 1][1] < j;
          return sum + (isDiagonal ? diagonal : 1) * cost(i, j);
        }, 0);
        return found === cheapest(q.length, r.length, cost, diagonal).least && added === found;
      }),
      { seed: 4, numRuns: 150 },
    );
  });
  it('within a band it costs as much or more, and nothing leaves the band', () => {
    const q = Array.from({ length: 40 }, (_, i) => Math.sin(i / 4));
    const r = Array.from({ length: 37 }, (_, i) => Math.sin(i / 4 - 0.9));
    const free = align(40, 37, apart(q, r), { diagonal: 2 });
    const narrow = align(40, 37, apart(q, r), { diagonal: 2, band: 3 });
    expect(narrow.cost).toBeGreaterThan(free.cost);
    expect(narrow.path.every(([i, j]) => Math.abs(i - j) <= 3)).toBe(true);
    expect(alignmentCost(40, 37, apart(q, r), { diagonal: 2, band: 3 })).toBe(narrow.cost);
  });
  it('refuses empty series, negative costs, bands narrower than the difference of lengths', () => {
    expect(() => alignmentCost(0, 3, () => 1, { diagonal: 1 })).toThrow(/first series is 0/);
    expect(() => alignmentCost(2, 3, () => -1, { diagonal: 1 })).toThrow(/cost of 1 beside 1 is -1/);
    expect(() => alignmentCost(2, 9, () => 1, { diagonal: 1, band: 3 })).toThrow(/band is 3/);
  });
});

describe('pathCount', () => {
  it('6 by 6: 1683 (Delannoy)', () => {
    expect(pathCount(6, 6)).toBe(1683);
  });
  it('counts the paths that there are', () => {
    for (const [n, m] of [
      [1, 5],
      [3, 4],
      [5, 2],
    ])
      expect(pathCount(n, m)).toBe(cheapest(n, m, () => 1, 1).paths);
  });
  it('refuses more than a machine can count', () => {
    expect(() => pathCount(60, 60)).toThrow(/more paths/);
  });
});
