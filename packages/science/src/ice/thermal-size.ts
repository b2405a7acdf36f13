import type { Kelvin, Pascals, Ratio } from '../units.ts';
import { iceDensity, normalPressure } from './properties.ts';

/**
 * Volume at one temperature over volume at another: ratio of the densities of ice Ih (IAPWS R10-06). Firn takes part
 * as a whole: a porous body of one material keeps its shape when all of it is as warm.
 *
 * @param from temperature at which it was measured, K
 * @param to temperature to which it is reduced, for example that of the hole, K
 * @param pressure the same for both, Pa
 * @throws QuantityError outside 0 to 273.16 K, 0 to 210 MPa
 */
export const volumeFactor = (from: Kelvin, to: Kelvin, pressure: Pascals = normalPressure): Ratio =>
  iceDensity(from, pressure) / iceDensity(to, pressure);

/**
 * Length at one temperature over length at another: cube root of the volumes' ratio, ice being all but isotropic in
 * its expansion (its two axes differ by a few per cent of it; from memory).
 *
 * A metre measured at -5 degrees C is 0.26 mm longer than the same metre was at -10.
 */
export const lengthFactor = (from: Kelvin, to: Kelvin, pressure: Pascals = normalPressure): Ratio =>
  Math.cbrt(volumeFactor(from, to, pressure));
