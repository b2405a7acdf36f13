import { isotopes } from '../constants/isotopes.ts';
import type { Permil } from '../units.ts';
import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';

/**
 * 17O excess in parts per million ("per meg"): 10^6 [ln(1 + delta17O/1000) - 0.528 ln(1 + delta18O/1000)].
 *
 * Source: E. Barkan, B. Luz 2007, Rapid Commun. Mass Spectrom. 21, 2999-3005; 0.528 by Meijer & Li 1998 (from memory).
 * Errors by JCGM 100:2008, eq. (13). Without the covariance they are nonsense: both deltas move together along the slope,
 * and their excess is known a hundred times better than either.
 *
 * @param covariance of both deltas, permil squared
 * @throws QuantityError for deltas not above -1000 permil or above 1e5, a covariance that cannot be
 */
export const oxygen17Excess = (
  delta17: Measured<Permil>,
  delta18: Measured<Permil>,
  covariance = 0,
): Measured => {
  const where = '17O excess';
  mustBeMeasured(where, 'delta 17O', delta17, '[ppth]', -999.999, 1e5);
  mustBeMeasured(where, 'delta 18O', delta18, '[ppth]', -999.999, 1e5);
  mustBeCovariance(where, covariance, delta17, delta18);
  const slope = isotopes.oxygen17Slope.value;
  const [of17, of18] = [1e6 / (1000 + delta17.value), (-slope * 1e6) / (1000 + delta18.value)];
  return {
    value: 1e6 * (Math.log1p(delta17.value / 1000) - slope * Math.log1p(delta18.value / 1000)),
    sd: rootOf((of17 * delta17.sd) ** 2 + (of18 * delta18.sd) ** 2 + 2 * of17 * of18 * covariance),
  };
};
