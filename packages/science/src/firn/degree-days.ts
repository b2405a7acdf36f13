import { mustLie } from '../quantity-error.ts';
import { normalBelow, normalDensity } from '../statistics/normal.ts';
import type { Celsius } from '../units.ts';

/**
 * Expected positive degrees of a day whose temperature is normal about its mean:
 * s/sqrt(2 pi) exp(-T^2/(2 s^2)) + (T/2) erfc(-T/(sqrt(2) s)), K d.
 *
 * Source: R. Calov and R. Greve 2005, J. Glaciol. 51(172), 173-175 (equation from memory, checked by quadrature).
 *
 * @param mean temperature of the day
 * @param sd of the temperature about it, K; 0 or more
 * @throws QuantityError for a negative sd
 */
export const positiveDegrees = (mean: Celsius, sd: number): number => {
  mustLie('positive degree days', 'standard deviation', sd, 0, 50, 'K');
  if (sd === 0) return Math.max(0, mean);
  const z = Math.abs(mean) / sd;
  const below = sd * (normalDensity(z) - z * normalBelow(-z));
  // E max(T, 0) = T + E max(-T, 0): the small one is computed
  return mean > 0 ? mean + below : below;
};

/**
 * Positive degree days of a year of daily means T = mean + swing cos(2 pi t/365), K d: how much a site may melt, at
 * some 3 mm w.e. of snow a degree day (EISMINT-Greenland, Ritz 1997; 2.5 to 11.6 are published, Hock 2003).
 *
 * @param swing half the difference between warmest and coldest day of the mean year, K
 * @throws QuantityError for a negative sd
 */
export const yearlyDegreeDays = (mean: Celsius, swing: number, sd: number): number => {
  let sum = 0;
  for (let day = 0; day < 365; day++)
    sum += positiveDegrees(mean + swing * Math.cos((2 * Math.PI * day) / 365), sd);
  return sum;
};
