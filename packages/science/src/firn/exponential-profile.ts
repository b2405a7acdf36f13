import { firnConstants } from '../constants/firn.ts';
import { mustLie } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres } from '../units.ts';

/**
 * The simplest profile of firn, for planning: rho = rho_i - (rho_i - rho_s) exp(-1.9 z/z_t), z_t the depth where firn
 * becomes ice.
 *
 * Source: Cuffey & Paterson 2010, *The Physics of Glaciers*, 4th edition, eq. (2.2), with rho_i = 917 kg/m3.
 *
 * @param surface 50 to 917 kg/m3
 * @throws QuantityError outside, or for a depth above the surface
 */
export const exponentialDensity = (
  depth: Metres,
  surface: KilogramsPerCubicMetre,
  firnDepth: Metres,
): KilogramsPerCubicMetre => {
  const where = 'exponential profile';
  mustLie(where, 'depth', depth, 0, 1e5, 'm');
  mustLie(where, 'surface density', surface, 50, 917, 'kg/m3');
  mustLie(where, 'depth of the firn', firnDepth, 1, 500, 'm');
  return 917 - (917 - surface) * Math.exp((-firnConstants.exponentialRate.value * depth) / firnDepth);
};
