import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { mustBeFinite } from './data.ts';

/** Values less their mean. @throws QuantityError for bad numbers, too few, or all alike */
export const anomalies = (where: string, values: readonly number[]): Float64Array => {
  if (values.length < 4) throw new QuantityError(where, `${values.length} values`, '4 or more');
  mustBeFinite(where, 'value', values);
  const mean = values[0] + values.reduce((sum, value) => sum + (value - values[0]) / values.length, 0);
  const out = Float64Array.from(values, (value) => value - mean);
  const largest = out.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (largest <= 8 * Number.EPSILON * Math.abs(mean))
    throw new QuantityError(where, 'all values are alike', 'values that differ');
  return out;
};

/**
 * Autocorrelation at the lags 0 to `most`, all products divided by the sum of all squares (the biased estimate: a lag takes
 * no share of itself back, so that the matrix of them can't be negative).
 *
 * Source: G. E. P. Box & G. M. Jenkins 1970, "Time series analysis", 2.1.5 (from memory).
 *
 * @param values at even steps, oldest or uppermost first
 * @throws QuantityError for fewer than 4 values, all alike, a lag as long as the series
 */
export const autocorrelation = (values: readonly number[], most: number): readonly Ratio[] => {
  const where = 'autocorrelation';
  const by = anomalies(where, values);
  mustLie(where, 'largest lag', most, 1, values.length - 2, '');
  const sums = Array.from({ length: Math.floor(most) + 1 }, (_, lag) => {
    let sum = 0;
    for (let i = lag; i < by.length; i++) sum += by[i] * by[i - lag];
    return sum;
  });
  return sums.map((sum) => sum / sums[0]);
};
