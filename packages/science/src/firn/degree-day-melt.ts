import { firnConstants } from '../constants/firn.ts';
import { mustLie } from '../quantity-error.ts';
import type { MetresWaterEquivalent, Ratio } from '../units.ts';

/** What melts: the factors of EISMINT-Greenland (Ritz 1997) are in `constants/firn.ts`. */
export type MeltingSurface = 'snow' | 'ice';

/** mm w.e. a kelvin and day. */
export const degreeDayFactor = (surface: MeltingSurface): number =>
  (surface === 'snow' ? firnConstants.degreeDaySnow : firnConstants.degreeDayIce).value;

/**
 * Melt by degree days: factor times positive degree days, less what freezes again.
 *
 * Source: R. Hock 2003, J. Hydrol. 282, 104-115, doi:10.1016/S0022-1694(03)00257-9 (abstract read; its factors differ
 * from place to place by a factor of four).
 *
 * @param degreeDays K d, 0 or more
 * @param factor mm w.e./K/d, 0.5 to 30
 * @param refrozen share of the melt that freezes again, 0 to 1
 * @throws QuantityError outside
 */
export const degreeDayMelt = (
  degreeDays: number,
  factor: number,
  refrozen: Ratio = 0,
): MetresWaterEquivalent => {
  const where = 'melt by degree days';
  mustLie(where, 'degree days', degreeDays, 0, 20_000, 'K d');
  mustLie(where, 'factor', factor, 0.5, 30, 'mm w.e./K/d');
  mustLie(where, 'refrozen share', refrozen, 0, 1, '');
  return (factor * degreeDays * (1 - refrozen)) / 1000;
};
