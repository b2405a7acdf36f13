import { mustLie } from '../../quantity-error.ts';
import type { KilogramsPerCubicMetre } from '../../units.ts';

/**
 * Thermal conductivity of snow and firn, W/m/K, a lower limit: k = 0.021 + 4.2e-4 rho + 2.2e-9 rho^3.
 *
 * Source: M. S. Van Dusen 1929, International Critical Tables 5, as quoted by Cuffey & Paterson 2010 (from memory).
 *
 * @throws QuantityError outside 0 to 917 kg/m3
 */
export const vanDusen1929 = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of snow, Van Dusen 1929', 'density', density, 0, 917, 'kg/m3');
  return 0.021 + 4.2e-4 * density + 2.2e-9 * density ** 3;
};
