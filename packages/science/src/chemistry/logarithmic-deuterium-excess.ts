import type { Permil } from '../units.ts';
import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';

/**
 * Logarithmic deuterium excess, permil: with h = 1000 ln(1 + delta2H/1000) and o = 1000 ln(1 + delta18O/1000),
 * d_ln = h - 8.47 o + 0.0285 o^2. It follows the bend of the line of meteoric waters, which d = delta2H - 8 delta18O
 * does not.
 *
 * Source: R. Uemura et al. 2012, Clim. Past 8, 1109-1125 (from memory; both coefficients seen in public code). Errors by
 * JCGM 100:2008, eq. (13); the coefficients are taken as the definition.
 *
 * @param covariance of both deltas, permil squared
 * @throws QuantityError for deltas not above -1000 permil or above 1e5, a covariance that cannot be
 */
export const logarithmicDeuteriumExcess = (
  hydrogen: Measured<Permil>,
  oxygen: Measured<Permil>,
  covariance = 0,
): Measured<Permil> => {
  const where = 'logarithmic deuterium excess';
  mustBeMeasured(where, 'delta 2H', hydrogen, '[ppth]', -999.999, 1e5);
  mustBeMeasured(where, 'delta 18O', oxygen, '[ppth]', -999.999, 1e5);
  mustBeCovariance(where, covariance, hydrogen, oxygen);
  const h = 1000 * Math.log1p(hydrogen.value / 1000);
  const o = 1000 * Math.log1p(oxygen.value / 1000);
  const ofHydrogen = 1 / (1 + hydrogen.value / 1000);
  const ofOxygen = (0.057 * o - 8.47) / (1 + oxygen.value / 1000);
  return {
    value: h - 8.47 * o + 0.0285 * o * o,
    sd: rootOf(
      (ofHydrogen * hydrogen.sd) ** 2 + (ofOxygen * oxygen.sd) ** 2 + 2 * ofHydrogen * ofOxygen * covariance,
    ),
  };
};
