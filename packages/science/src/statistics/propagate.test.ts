import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coverageFactor } from './coverage-factor.ts';
import { gauge, quantities } from './end-gauge.suite.ts';
import { propagate } from './propagate.ts';

describe('propagate', () => {
  const result = propagate((x) => [gauge(x)], quantities);
  it('GUM H.1: 50.000838 mm, 32 nm, 16 degrees, k 2.92, 93 nm', () => {
    expect(result.values[0]).toBe(50_000_838);
    expect(result.sd[0]).toBeCloseTo(31.71, 2);
    expect(Math.floor(result.degrees[0] ?? 0)).toBe(16);
    const factor = coverageFactor(0.99, result.degrees[0] ?? 0);
    expect(factor).toBeCloseTo(2.92, 2);
    expect(factor * result.sd[0]).toBeCloseTo(92.6, 1);
  });
  it('GUM H.1: the parts are 25, 9.7, 2.9 and 16.6 nm, and nothing of the two with no slope', () => {
    [25, 9.7, 0, 0, 2.9, 16.675].forEach((part, k) => {
      expect(result.parts[0][k]).toBeCloseTo(part, 3);
    });
  });
  it('GUM H.2: resistance, reactance, impedance with the correlations of what was read and of what came out', () => {
    // readings from memory; they reproduce every printed digit
    const v = [5.007, 4.994, 5.005, 4.99, 4.999];
    const i = [0.019663, 0.019639, 0.01964, 0.019685, 0.019678];
    const phi = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    const ofMeans = (a: readonly number[], b: readonly number[]) =>
      a.reduce((sum, value, k) => sum + (value - mean(a)) * (b[k] - mean(b)), 0) / 20;
    const all = [v, i, phi];
    const sd = all.map((a) => Math.sqrt(ofMeans(a, a)));
    const correlation = all.map((a, r) => all.map((b, c) => (r === c ? 1 : ofMeans(a, b) / (sd[r] * sd[c]))));
    expect(correlation[0][1]).toBeCloseTo(-0.355, 3);
    expect(correlation[0][2]).toBeCloseTo(0.858, 3);
    expect(correlation[1][2]).toBeCloseTo(-0.645, 3);
    const {
      values,
      sd: u,
      correlation: r,
      degrees,
    } = propagate(
      ([V, I, p]) => [(V / I) * Math.cos(p), (V / I) * Math.sin(p), V / I],
      all.map((a, k) => ({ value: mean(a), sd: sd[k] })),
      correlation,
    );
    [127.732, 219.847, 254.26].forEach((value, k) => {
      expect(values[k]).toBeCloseTo(value, 3);
    });
    [0.071, 0.2956, 0.236].forEach((value, k) => {
      expect(u[k]).toBeCloseTo(value, 3);
    });
    expect(r[0][1]).toBeCloseTo(-0.588, 3);
    expect(r[0][2]).toBeCloseTo(-0.485, 3);
    expect(r[1][2]).toBeCloseTo(0.993, 3);
    expect(degrees).toEqual([null, null, null]);
  });
  it('of a sum of multiples it is exact: u^2 is the sum of (c u)^2, with 2 r c c u u for each correlated pair', () => {
    const amount = fc.double({ min: -5, max: 5, noNaN: true });
    const spread = fc.double({ min: 0.01, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        amount,
        amount,
        spread,
        spread,
        fc.double({ min: -1, max: 1, noNaN: true }),
        (a, b, u, v, r) => {
          const { sd } = propagate(
            ([x, y]) => [a * x + b * y],
            [
              { value: 3, sd: u },
              { value: -7, sd: v },
            ],
            [
              [1, r],
              [r, 1],
            ],
          );
          return Math.abs(sd[0] ** 2 - ((a * u) ** 2 + (b * v) ** 2 + 2 * r * a * b * u * v)) < 1e-9;
        },
      ),
      { seed: 3, numRuns: 200 },
    );
  });
  it('refuses negative uncertainties, matrices that are no correlations, formulas without a value', () => {
    expect(() => propagate((x) => [x[0]], [{ value: 1, sd: -1 }])).toThrow(/uncertainty of quantity 1/);
    expect(() => propagate((x) => [x[0]], [{ value: Number.NaN, sd: 1 }])).toThrow(/quantity 1 is NaN/);
    expect(() => propagate(([x]) => [Math.log(x)], [{ value: 0.1, sd: 2 }])).toThrow(/result 1 is NaN/);
    const two = [
      { value: 1, sd: 1 },
      { value: 2, sd: 1 },
    ];
    expect(() =>
      propagate(([a, b]) => [a * b], two, [
        [1, 0.5],
        [0.4, 1],
      ]),
    ).toThrow(/no such matrix/);
  });
});
