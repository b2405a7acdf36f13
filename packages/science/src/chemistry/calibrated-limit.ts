import { QuantityError } from '../quantity-error.ts';
import { type Measured, mustBeMeasured } from './measured.ts';

/**
 * Detection limit of a calibrated instrument, as a content, with the errors of its line in it:
 * c_L = k sqrt(s_B^2 + s_a^2 + (a/b)^2 s_b^2)/b, a the intercept, b the slope.
 *
 * Source: G. L. Long, J. D. Winefordner 1983, Anal. Chem. 55, 712A-724A, propagation-of-errors approach (from memory).
 * With an exact line it is k s_B/b. The covariance of intercept and slope is left out there, which errs to the high
 * side.
 *
 * @param blankSd standard deviation of blank readings
 * @param factor k, 3 by IUPAC
 * @throws QuantityError for a slope of zero, what is not finite
 */
export const calibratedLimit = (
  blankSd: number,
  intercept: Measured,
  slope: Measured,
  factor = 3,
): number => {
  const where = 'detection limit of a calibration';
  mustBeMeasured(where, 'blank', { value: 0, sd: blankSd });
  mustBeMeasured(where, 'intercept', intercept);
  mustBeMeasured(where, 'slope', slope);
  mustBeMeasured(where, 'factor', { value: factor, sd: 0 }, '', 0);
  if (slope.value === 0) throw new QuantityError(where, 'the slope is 0', 'a slope other than 0');
  const ofSlope = (intercept.value / slope.value) * slope.sd;
  return (factor * Math.hypot(blankSd, intercept.sd, ofSlope)) / Math.abs(slope.value);
};
