import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  capped,
  effectivePairs,
  effectivePairsByLags,
  effectiveValues,
  effectiveValuesExact,
} from './effective-size.ts';

describe('effectivePairs', () => {
  it('of the examples recomputed in the sheet; of unlike memories more than there are, and capped', () => {
    expect(effectivePairs(100, 0.7, 0.5)).toBeCloseTo(48.148148, 6);
    expect(effectivePairs(60, 0.9, 0.8)).toBeCloseTo(9.767442, 6);
    expect(effectivePairs(150, -0.3, 0.4)).toBeCloseTo(190.909091, 6);
    expect(capped(effectivePairs(150, -0.3, 0.4), 150)).toBe(150);
  });
  it('is the limit of the sum over all lags of two series of the first order', () => {
    const lags = (a: number) => Array.from({ length: 400 }, (_, k) => a ** k);
    expect(effectivePairsByLags(1e7, lags(0.7), lags(0.5)) / effectivePairs(1e7, 0.7, 0.5)).toBeCloseTo(1, 6);
  });
  it('refuses a memory of 1, and lags that leave nothing', () => {
    expect(() => effectivePairs(100, 1, 0.5)).toThrow(/lag 1 is 1/);
    expect(() => effectivePairsByLags(9, [1, -0.9, 0.1], [1, 0.9, 0.2])).toThrow(/fewer lags/);
  });
});

describe('effectiveValues', () => {
  it.each([
    [100, 0.7, 17.647059, 18.145161],
    [100, 0.5, 33.333333, 33.783784],
    [365, 0.9, 19.210526, 19.722428],
  ])(
    '%d values of memory %d: %d, and %d without the approximation (recomputed in the sheet)',
    (n, a, simple, exact) => {
      expect(effectiveValues(n, a)).toBeCloseTo(simple, 6);
      expect(effectiveValuesExact(n, a)).toBeCloseTo(exact, 6);
    },
  );
  it('the closed form is the sum over all lags', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 60 }),
        fc.double({ min: -0.95, max: 0.95, noNaN: true }),
        (n, a) => {
          let below = 1;
          for (let k = 1; k < n; k++) below += 2 * (1 - k / n) * a ** k;
          return Math.abs((effectiveValuesExact(n, a) * below) / n - 1) < 1e-9;
        },
      ),
      { seed: 2, numRuns: 200 },
    );
  });
});
