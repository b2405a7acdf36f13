import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveDepths } from '../depth/solve.ts';
import { conversion, conversionTable } from './convert.ts';
import type { DepthScale } from './depth.ts';
import { inventedSeason } from './invented-season.suite.ts';
import { drillerScale, loggerScale, type ScaleOfHole, solvedScale } from './scales.ts';

/** Made by hand: piece a 0 to 1 m, piece b from 1 (logger) or 1.1 m (solved), 20 cm lost above piece c on both. */
const places = ['a', 'b', 'c'].flatMap((piece) => [
  { piece, run: '1', end: 'top' } as const,
  { piece, run: '1', end: 'bottom' } as const,
]);
const made = (
  scale: DepthScale,
  at: readonly number[],
  sd: readonly number[] | null = null,
): ScaleOfHole => ({
  hole: 'B',
  scale,
  places,
  at,
  sd,
  leftOut: [],
  filled: [],
  endsAt: null,
});
const logger = made({ name: 'logger' }, [0, 1, 1, 2, 2.2, 3]);
const solved = made(
  { name: 'solved', version: 'v1' },
  [0, 1, 1.1, 2.2, 2.4, 3.2],
  [0, 0.01, 0.01, 0.02, 0.03, 0.04],
);
const at = (scale: ScaleOfHole, value: number, sd = 0) => ({ hole: 'B', scale: scale.scale, value, sd });

describe('conversion', () => {
  const forth = conversion(logger, solved);

  it('in ice is linear from end to end of the piece, with the doubt of the solved scale there', () => {
    const { depth, within } = forth(at(logger, 1.5));
    expect(depth).toMatchObject({ hole: 'B', scale: { name: 'solved', version: 'v1' } });
    expect(depth.value).toBeCloseTo(1.65, 12);
    expect(depth.sd).toBeCloseTo(0.015, 12);
    expect(within).toEqual({ kind: 'ice', piece: 'b' });
  });

  it('carries the error of the depth itself along with the slope', () => {
    const { depth } = forth(at(logger, 1.5, 0.02));
    expect(depth.sd).toBeCloseTo(Math.hypot(1.1 * 0.02, 0.015), 12);
    // to a label only the mark's own error goes along
    expect(conversion(solved, logger)(at(solved, 1.65, 0.022)).depth.sd).toBeCloseTo(0.02, 12);
  });

  it('says what falls into lost ice, and between which pieces', () => {
    const { within, from, to, depth } = forth(at(logger, 2.1));
    expect(within).toEqual({ kind: 'lost ice', above: 'b', below: 'c' });
    expect([from, to]).toEqual([2.2, 2.4]);
    expect(depth.value).toBeCloseTo(2.3, 12);
  });

  it('on a break that has a width on the other scale only, gives its middle and its spread', () => {
    const { within, from, to, depth } = forth(at(logger, 1));
    expect(within).toEqual({ kind: 'break', above: 'a', below: 'b' });
    expect([from, to]).toEqual([1, 1.1]);
    expect(depth.value).toBeCloseTo(1.05, 12);
    expect(depth.sd).toBeCloseTo(Math.hypot(0.01, 0.1 / Math.sqrt(12)), 12);
  });

  it('above and below the core goes on with slope 1, and says so', () => {
    expect(forth(at(logger, 3.5))).toMatchObject({ within: { kind: 'below the core' } });
    expect(forth(at(logger, 3.5)).depth.value).toBeCloseTo(3.7, 12);
    expect(forth(at(logger, -0.2)).within).toEqual({ kind: 'above the core' });
  });

  it('reaches only as far as both scales do', () => {
    const short = { ...logger, at: [0, 1, 1, null, null, null] };
    expect(conversion(short, solved)(at(logger, 1.5)).within.kind).toBe('below the core');
  });

  it('refuses holes that are not joined, scales without common ice, and a depth of another scale', () => {
    expect(() => conversion(logger, { ...solved, hole: 'A' })).toThrow(/join the holes by a splice/);
    expect(() => conversion(logger, { ...solved, at: solved.at.map(() => null) })).toThrow(
      /no piece in common/,
    );
    expect(() => forth(at(solved, 1))).toThrow(/take the conversion of its scale/);
    expect(() => forth(at(logger, Number.NaN))).toThrow(/not a number/);
  });
});

describe('conversion on simulated seasons (fast-check)', () => {
  const scales = (seed: number) => {
    const readings = inventedSeason(seed, 30);
    const solution = solveDepths(readings);
    return [
      drillerScale('B', readings, solution),
      loggerScale('B', readings, solution),
      solvedScale('B', solution, 'v1'),
    ] as const;
  };
  const seeds = fc.integer({ min: 1, max: 1e6 });

  it('there and back again is the same depth in ice, and the same gap elsewhere', () => {
    fc.assert(
      fc.property(seeds, fc.double({ min: 0, max: 1, noNaN: true }), (seed, share) => {
        const [driller, logger, solved] = scales(seed);
        for (const [from, to] of [
          [logger, solved],
          [solved, logger],
          [driller, solved],
          [logger, driller],
        ]) {
          const value = share * (from.at.at(-1) as number);
          const there = conversion(from, to)(at(from, value));
          const back = conversion(to, from)(at(to, there.depth.value));
          const slack = back.to - back.from;
          expect(Math.abs(back.depth.value - value)).toBeLessThanOrEqual(1e-9 + slack);
          if (there.within.kind === 'ice') expect(Math.abs(back.depth.value - value)).toBeLessThan(1e-9);
        }
      }),
      { numRuns: 25, seed: 4 },
    );
  });

  it('never decreases', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const [driller, logger, solved] = scales(seed);
        for (const [from, to] of [
          [logger, solved],
          [solved, logger],
          [solved, driller],
        ]) {
          const f = conversion(from, to);
          let before = Number.NEGATIVE_INFINITY;
          for (let z = 0; z < 25; z += 0.037) {
            const { value } = f(at(from, z)).depth;
            expect(value).toBeGreaterThanOrEqual(before - 1e-12);
            before = value;
          }
        }
      }),
      { numRuns: 10, seed: 4 },
    );
  });
});

describe('conversionTable', () => {
  it('holds every scale at the top and bottom of every piece', () => {
    const rows = conversionTable([solved, { ...logger, at: [0, 1, 1, 2, null, null] }]);
    expect(rows).toHaveLength(6);
    expect(rows[3]).toEqual({ piece: 'b', run: '1', end: 'bottom', depths: [2.2, 2], sds: [0.02, null] });
    expect(rows[4].depths).toEqual([2.4, null]);
  });

  it('is of one hole', () => {
    expect(() => conversionTable([solved, { ...logger, hole: 'C' }])).toThrow(/make two tables/);
    expect(() => conversionTable([])).toThrow(/one scale at least/);
  });
});
