import { describe, expect, it } from 'vitest';
import { fitLinear } from './linear-fit.ts';
import { weightedMean } from './weighted-mean.ts';

describe('weightedMean', () => {
  const values = [10.2, 9.7, 10.9, 10.05];
  const sd = [0.2, 0.3, 0.5, 0.1];
  it('is the fit of a constant, internal and external error those of the two covariances', () => {
    const mean = weightedMean(values, sd);
    const rows = values.map(() => [1]);
    expect(mean.mean).toBeCloseTo(fitLinear(rows, values, { sd }).coefficients[0], 13);
    expect(mean.internalSd).toBeCloseTo(fitLinear(rows, values, { sd }).sd[0], 13);
    expect(mean.externalSd).toBeCloseTo(fitLinear(rows, values, { sd, covariance: 'scaled' }).sd[0], 13);
  });
  it('a difference of 1.96 deviations has the chance 0.05', () => {
    expect(weightedMean([5, 5 + 1.959963984540054 * Math.SQRT2], [1, 1]).p).toBeCloseTo(0.05, 12);
  });
  it('a large value in common costs no digits', () => {
    expect(
      weightedMean(
        values.map((v) => v + 1e9),
        sd,
      ).chiSquare,
    ).toBeCloseTo(weightedMean(values, sd).chiSquare, 4);
  });
  it('refuses one value, and deviations that are not above 0', () => {
    expect(() => weightedMean([1], [0.1])).toThrow(/2 or more/);
    expect(() => weightedMean([1, 2], [0.1, -0.2])).toThrow(/standard deviation 2/);
  });
});
