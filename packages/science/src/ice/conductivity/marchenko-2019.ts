import { mustLie } from '../../quantity-error.ts';
import type { KilogramsPerCubicMetre } from '../../units.ts';

/**
 * Effective thermal conductivity of firn, W/m/K: k = 0.301e-2 rho - 0.724, from temperatures measured in the firn of
 * an icefield that takes up meltwater.
 *
 * Source: S. Marchenko et al. 2019, Front. Earth Sci. 7, 61, doi:10.3389/feart.2019.00061 (formula and range as
 * quoted; volume and page from memory).
 *
 * @throws QuantityError outside 350 to 900 kg/m3
 */
export const marchenko2019 = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of firn, Marchenko 2019', 'density', density, 350, 900, 'kg/m3');
  return 0.301e-2 * density - 0.724;
};
