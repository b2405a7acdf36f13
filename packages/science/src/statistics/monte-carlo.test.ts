import { describe, expect, it } from 'vitest';
import type { Distribution } from './distributions.ts';
import { gauge, quantities } from './end-gauge.suite.ts';
import { firstOrderHolds, propagateByDrawing } from './monte-carlo.ts';
import { propagate } from './propagate.ts';

const sum = (quantities: readonly number[]) => quantities.reduce((a, b) => a + b, 0);
const root3 = Math.sqrt(3);
const rectangle = (u: number): Distribution => ({ kind: 'rectangular', low: -u * root3, high: u * root3 });

describe('propagateByDrawing', () => {
  // JCGM 101:2008, 9.2: sums of four quantities; the ends of the intervals are exact (Irwin & Hall), those of 9.2.4 printed
  it.each([
    [
      'four normal ones (9.2.2)',
      [1, 1, 1, 1].map((sd): Distribution => ({ kind: 'normal', mean: 0, sd })),
      2,
      3.919928,
    ],
    ['four rectangles (9.2.3)', [1, 1, 1, 1].map(rectangle), 2, 3.879407],
    [
      'four rectangles, one of them ten times as wide (9.2.4)',
      [1, 1, 1, 10].map(rectangle),
      Math.sqrt(103),
      17,
    ],
  ])('%s', (_, inputs, u, high) => {
    const drawn = propagateByDrawing(sum, inputs, { seed: 2, trials: 1_000_000 });
    expect(Math.abs(drawn.sd - u)).toBeLessThan(0.003 * u);
    expect(Math.abs(drawn.high - high)).toBeLessThan(0.005 * high);
    expect(Math.abs(drawn.low + high)).toBeLessThan(0.005 * high);
    expect(drawn.shortest[1] - drawn.shortest[0]).toBeLessThanOrEqual(drawn.high - drawn.low);
  });
  it('GUM H.1 does not come out as the 32 nm of the first order, but near the 34 nm of the second', () => {
    const drawn = propagateByDrawing(
      gauge,
      quantities.map(({ value, sd }) => ({ kind: 'normal', mean: value, sd })),
      { seed: 11, trials: 400_000 },
    );
    expect(Math.abs(drawn.sd - 33.91)).toBeLessThan(0.3);
    expect(drawn.sd).toBeGreaterThan(33);
    const first = propagate((x) => [gauge(x)], quantities);
    expect(firstOrderHolds(first.values[0], 1.96 * first.sd[0], drawn)).toBe(false);
  });
  it('draws each distribution with its own mean and variance (JCGM 101:2008, 6.4)', () => {
    const cases: readonly (readonly [Distribution, number, number])[] = [
      [{ kind: 'student', mean: 4, scale: 0.5, degrees: 7 }, 4, (0.25 * 7) / 5],
      [{ kind: 'triangular', low: 1, high: 4 }, 2.5, 9 / 24],
      [{ kind: 'arcsine', low: 2, high: 5 }, 3.5, 9 / 8],
      [{ kind: 'exponential', mean: 3 }, 3, 9],
      [{ kind: 'rectangular', low: 1, high: 5 }, 3, 16 / 12],
    ];
    for (const [input, mean, variance] of cases) {
      const drawn = propagateByDrawing(([x]) => x, [input], { seed: 5, trials: 300_000 });
      expect(Math.abs(drawn.mean - mean), input.kind).toBeLessThan(5 * Math.sqrt(variance / 300_000));
      expect(Math.abs(drawn.sd ** 2 / variance - 1), input.kind).toBeLessThan(0.02);
    }
  });
  it('goes on until the digits asked for stand still, and says so', () => {
    const one = propagateByDrawing(([x]) => x, [{ kind: 'normal', mean: 8, sd: 0.31 }], {
      seed: 4,
      digits: 1,
    });
    const two = propagateByDrawing(([x]) => x, [{ kind: 'normal', mean: 8, sd: 0.31 }], {
      seed: 4,
      digits: 2,
    });
    expect(one.isStable && two.isStable).toBe(true);
    expect(two.trials).toBeGreaterThan(one.trials);
    expect(two.sd.toFixed(2)).toBe('0.31');
  });
  it('of quantities that are all known there is nothing to wait for', () => {
    const drawn = propagateByDrawing(sum, [{ kind: 'normal', mean: 3, sd: 0 }], { seed: 1 });
    expect([drawn.mean, drawn.sd, drawn.low, drawn.isStable]).toEqual([3, 0, 3, true]);
  });
  it('correlated normal quantities: a difference of equals of correlation 0.75 has half the variance of one', () => {
    const inputs: readonly Distribution[] = [
      { kind: 'normal', mean: 1, sd: 2 },
      { kind: 'normal', mean: 5, sd: 2 },
      { kind: 'rectangular', low: -1e-9, high: 1e-9 },
    ];
    const correlation = [
      [1, 0.75, 0],
      [0.75, 1, 0],
      [0, 0, 1],
    ];
    const drawn = propagateByDrawing(([a, b, c]) => b - a + c, inputs, {
      seed: 6,
      trials: 200_000,
      correlation,
    });
    expect(Math.abs(drawn.sd ** 2 - 2)).toBeLessThan(0.05);
    expect(drawn.mean).toBeCloseTo(4, 1);
  });
  it('the same seed gives the same result, another one another', () => {
    const at = (seed: number) =>
      propagateByDrawing(sum, [rectangle(1), rectangle(2)], { seed, trials: 1000 }).sd;
    expect(at(8)).toBe(at(8));
    expect(at(8)).not.toBe(at(9));
  });
  it('refuses limits the wrong way round, correlated rectangles, contradictions, formulas without a value', () => {
    const wrong: Distribution = { kind: 'rectangular', low: 2, high: 1 };
    expect(() => propagateByDrawing(sum, [wrong], { seed: 1 })).toThrow(/limits are 2 and 1/);
    const half = [
      [1, 0.5],
      [0.5, 1],
    ];
    expect(() =>
      propagateByDrawing(sum, [rectangle(1), rectangle(2)], { seed: 1, correlation: half }),
    ).toThrow(/rectangular and correlated/);
    const normals = [1, 2, 3].map((sd): Distribution => ({ kind: 'normal', mean: 0, sd }));
    const impossible = [
      [1, 0.9, -0.9],
      [0.9, 1, 0.9],
      [-0.9, 0.9, 1],
    ];
    expect(() => propagateByDrawing(sum, normals, { seed: 1, correlation: impossible })).toThrow(
      /contradict/,
    );
    expect(() => propagateByDrawing(([x]) => Math.log(x), [rectangle(1)], { seed: 1 })).toThrow(
      /formula is NaN/,
    );
  });
});

describe('firstOrderHolds', () => {
  it('asks for both ends within half a unit of the last digit of u (JCGM 101:2008, 8.2)', () => {
    const drawn = { low: -3.92, high: 3.92, sd: 2 };
    expect(firstOrderHolds(0, 3.93, drawn)).toBe(true);
    expect(firstOrderHolds(0, 3.99, drawn)).toBe(false);
    expect(firstOrderHolds(0.03, 3.93, drawn)).toBe(true);
    expect(firstOrderHolds(0.1, 3.92, drawn)).toBe(false);
  });
});
