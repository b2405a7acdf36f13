import { describe, expect, it } from 'vitest';
import { quantile } from './quantiles.ts';

describe('quantile', () => {
  const values = [2.1, 9.7, 4.4, 7.3, 5.2, 3.9, 8.8];
  const shares = [0.1, 0.25, 0.62, 0.95];
  // NumPy 2.4, numpy.quantile, methods of the same definitions
  it.each([
    ['7', [3.18, 4.15, 6.712, 9.43]],
    ['4', [2.1, 3.45, 5.914, 9.385]],
    ['5', [2.46, 4.025, 6.964, 9.7]],
    ['6', [2.1, 3.9, 7.216, 9.7]],
    ['8', [2.22, 3.9833333333333334, 7.048, 9.7]],
    ['9', [2.28, 3.99375, 7.027, 9.7]],
  ] as const)('rule %s of Hyndman & Fan is that of the reference library', (rule, wanted) => {
    shares.forEach((p, i) => {
      expect(quantile(values, p, rule)).toBeCloseTo(wanted[i], 12);
    });
  });
  it('refuses no data, and shares outside of 0 to 1', () => {
    expect(() => quantile([], 0.5)).toThrow(/no data/);
    expect(() => quantile(values, 1.2)).toThrow(/share is 1.2/);
    expect(() => quantile([1, Number.NaN], 0.5)).toThrow(/value 2 is NaN/);
  });
});
