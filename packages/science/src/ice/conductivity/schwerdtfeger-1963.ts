import { mustLie } from '../../quantity-error.ts';
import type { Kelvin, KilogramsPerCubicMetre } from '../../units.ts';
import { iceDensity } from '../properties.ts';
import { yen1981 } from './yen-1981.ts';

/**
 * Thermal conductivity of firn as ice with air bubbles, W/m/K, an upper limit: k = 2 k_i rho/(3 rho_i - rho).
 *
 * Source: P. Schwerdtfeger 1963, as quoted by Cuffey & Paterson 2010 (from memory). k_i by Yen 1981, rho_i by IAPWS
 * R10-06 at the same temperature and 1 atm.
 *
 * @throws QuantityError for a density outside 0 to that of ice, a temperature outside 190 to 273.16 K
 */
export const schwerdtfeger1963 = (density: KilogramsPerCubicMetre, temperature: Kelvin): number => {
  const ice = iceDensity(temperature);
  mustLie('conductivity of firn, Schwerdtfeger 1963', 'density', density, 0, ice, 'kg/m3');
  return (2 * yen1981(temperature) * density) / (3 * ice - density);
};
