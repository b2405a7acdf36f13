import { mustLie } from '../../quantity-error.ts';
import type { KilogramsPerCubicMetre } from '../../units.ts';

/**
 * Effective thermal conductivity of snow, W/m/K: k = 2.5e-6 rho^2 - 1.23e-4 rho + 0.024, from images of the
 * microstructure, conductivity of ice and air as at -3 degrees C.
 *
 * Source: N. Calonne et al. 2011, Geophys. Res. Lett. 38, L23501, doi:10.1029/2011GL049234.
 *
 * @throws QuantityError outside 0 to 917 kg/m3 (data: 100 to 550; from memory)
 */
export const calonne2011 = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of snow, Calonne 2011', 'density', density, 0, 917, 'kg/m3');
  return 2.5e-6 * density * density - 1.23e-4 * density + 0.024;
};
