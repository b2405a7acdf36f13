import { QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { mustBeFinite } from './data.ts';
import { fitLinear, type LinearFit, type LinearFitOptions } from './linear-fit.ts';

export interface StraightLine extends LinearFit {
  /** Value at `origin`. */
  readonly intercept: number;
  readonly slope: number;
  /** Of intercept and slope. */
  readonly correlation: Ratio;
  /** Standard deviation of one of the data about the line: sqrt(chi-square/degrees). */
  readonly scatter: number;
  /** Value of the line at x, and its standard deviation with the correlation of both coefficients. */
  readonly at: (x: number) => { readonly value: number; readonly sd: number };
}

/**
 * Straight line y = intercept + slope (x - origin) by weighted least squares.
 *
 * Source: as `fitLinear`; the calibration of JCGM 100:2008, H.3, is this one, eqs. (H.13) to (H.15).
 *
 * @param origin where the intercept is taken; in the middle of the data both coefficients are nearly independent
 * @throws QuantityError for fewer than two different x, bad numbers
 */
export const fitStraightLine = (
  x: readonly number[],
  y: readonly number[],
  { origin = 0, ...options }: LinearFitOptions & { readonly origin?: number } = {},
): StraightLine => {
  const where = 'straight line by least squares';
  if (x.length !== y.length)
    throw new QuantityError(where, `${x.length} x, ${y.length} y`, 'as many of one as of the other');
  mustBeFinite(where, 'origin', [origin]);
  const fit = fitLinear(
    x.map((value) => [1, value - origin]),
    y,
    options,
  );
  const [intercept, slope] = fit.coefficients;
  const [[aa, ab], [, bb]] = fit.covariance;
  return {
    ...fit,
    intercept,
    slope,
    correlation: ab / Math.sqrt(aa * bb),
    scatter: Math.sqrt(fit.chiSquare / fit.degrees),
    at: (there) => {
      const t = there - origin;
      return { value: intercept + slope * t, sd: Math.sqrt(aa + t * (2 * ab + t * bb)) };
    },
  };
};
