import { QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { mustBeFinite, weightsOf } from './data.ts';
import { gammaAbove } from './gamma.ts';

export interface WeightedMean {
  readonly mean: number;
  /** By the standard deviations given: 1/sqrt(sum of weights), "internal". */
  readonly internalSd: number;
  /** By the scatter about the mean: internal times the Birge ratio, "external". */
  readonly externalSd: number;
  readonly chiSquare: Ratio;
  readonly degrees: number;
  /** Chance of as large a chi-square if the deviations are right. */
  readonly p: Ratio;
}

/**
 * Mean of values of unlike standard deviations, weights 1/sd^2.
 *
 * Source: R. T. Birge 1932, "The calculation of errors by the method of least squares", Phys. Rev. 40, 207-227 (internal and
 * external errors; from memory).
 *
 * @throws QuantityError for fewer than 2 values, deviations that are not above 0
 */
export const weightedMean = (values: readonly number[], sd: readonly number[]): WeightedMean => {
  const where = 'weighted mean';
  if (values.length < 2) throw new QuantityError(where, `${values.length} values`, '2 or more');
  mustBeFinite(where, 'value', values);
  const roots = weightsOf(where, sd, values.length);
  const all = roots.reduce((sum, root) => sum + root * root, 0);
  // from the first value on: a large value in common costs no digits
  const mean =
    values[0] + values.reduce((sum, value, i) => sum + (value - values[0]) * roots[i] ** 2, 0) / all;
  const chiSquare = values.reduce((sum, value, i) => sum + ((value - mean) * roots[i]) ** 2, 0);
  const degrees = values.length - 1;
  const internalSd = 1 / Math.sqrt(all);
  return {
    mean,
    internalSd,
    externalSd: internalSd * Math.sqrt(chiSquare / degrees),
    chiSquare,
    degrees,
    p: gammaAbove(degrees / 2, chiSquare / 2),
  };
};
