import { QuantityError } from '../quantity-error.ts';
import type { FirnColumn } from './herron-langway.ts';

/**
 * Herron & Langway 1980 at many depths in one call: density (kg/m3), age (a), water equivalent (m w.e.), each into an
 * array that the caller keeps. Nothing is allocated per depth; depths in any order. See `herronLangway`.
 */
const atAll =
  (name: 'density' | 'age' | 'waterEquivalent') =>
  /**
   * @param depths m, 0 or more
   * @param out as long as `depths`; may be the same array
   * @throws QuantityError for arrays of two lengths, or a depth above the surface
   */
  (column: FirnColumn, depths: Float64Array, out: Float64Array): Float64Array => {
    if (out.length !== depths.length)
      throw new QuantityError(
        'Herron & Langway 1980',
        `there is room for ${out.length} results`,
        `${depths.length}, one for each depth`,
      );
    const at = column[name];
    for (let i = 0; i < depths.length; i++) out[i] = at(depths[i]);
    return out;
  };

export const firnDensityAll = atAll('density');
export const firnAgeAll = atAll('age');
export const firnWaterAll = atAll('waterEquivalent');
