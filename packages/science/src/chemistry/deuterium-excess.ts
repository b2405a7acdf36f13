import { isotopes } from '../constants/isotopes.ts';
import type { Permil } from '../units.ts';
import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';

/**
 * Deuterium excess d = delta2H - 8 delta18O, permil.
 *
 * Source: W. Dansgaard 1964, Tellus 16, 436-468 (from memory). Errors by JCGM 100:2008, eq. (13):
 * u^2 = u_2H^2 + 64 u_18O^2 - 16 cov. Validity: a definition; far below -40 permil of 18O the straight line of slope 8
 * bends, which shows up as excess.
 *
 * @param covariance of both deltas, permil squared: they come from one vial
 * @throws QuantityError for deltas below -1000 permil or above 1e5, a covariance that cannot be
 */
export const deuteriumExcess = (
  hydrogen: Measured<Permil>,
  oxygen: Measured<Permil>,
  covariance = 0,
): Measured<Permil> => {
  const where = 'deuterium excess';
  mustBeMeasured(where, 'delta 2H', hydrogen, '[ppth]', -1000, 1e5);
  mustBeMeasured(where, 'delta 18O', oxygen, '[ppth]', -1000, 1e5);
  mustBeCovariance(where, covariance, hydrogen, oxygen);
  const slope = isotopes.meteoricSlope.value;
  return {
    value: hydrogen.value - slope * oxygen.value,
    sd: rootOf(hydrogen.sd ** 2 + (slope * oxygen.sd) ** 2 - 2 * slope * covariance),
  };
};

/** d of a whole series, permil; `out` is filled. */
export const deuteriumExcessAll = (hydrogen: Float64Array, oxygen: Float64Array, out: Float64Array): void => {
  const slope = isotopes.meteoricSlope.value;
  for (let i = 0; i < out.length; i += 1)
    out[i] = (hydrogen[i] ?? Number.NaN) - slope * (oxygen[i] ?? Number.NaN);
};
