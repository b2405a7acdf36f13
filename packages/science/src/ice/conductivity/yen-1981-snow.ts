import { mustLie } from '../../quantity-error.ts';
import type { KilogramsPerCubicMetre } from '../../units.ts';

/**
 * Effective thermal conductivity of snow, W/m/K: k = 2.22362 (rho/1000)^1.885.
 *
 * Source: Y.-C. Yen 1981, CRREL Report 81-10 (from memory).
 *
 * @throws QuantityError outside 0 to 917 kg/m3
 */
export const yen1981Snow = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of snow, Yen 1981', 'density', density, 0, 917, 'kg/m3');
  return 2.22362 * (density / 1000) ** 1.885;
};
