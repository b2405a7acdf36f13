import { iceConstants } from '../../constants/ice.ts';
import { mustLie } from '../../quantity-error.ts';
import type { Kelvin, KilogramsPerCubicMetre, Ratio } from '../../units.ts';
import { calonne2011 } from './calonne-2011.ts';
import { yen1981 } from './yen-1981.ts';

const referenceIce = iceConstants.conductivityCalonne.value;

/**
 * Effective thermal conductivity of snow, firn and porous ice, W/m/K:
 * k = (1 - theta) (k_i k_a/(k_i,ref k_a,ref)) k_snow + theta (k_i/k_i,ref) k_firn, theta = 1/(1 + exp(-2a (rho -
 * 450))), a = 0.02 m3/kg, k_firn = 2.107 + 0.003618 (rho - 917), k_snow that of Calonne 2011.
 *
 * Source: N. Calonne et al. 2019, Geophys. Res. Lett. 46, 13079-13089, doi:10.1029/2019GL085228, eq. (5). k_i here is
 * Yen 1981, so that at 917 kg/m3 the result is that of ice.
 *
 * @param air conductivity of air over that at the reference temperature; 1 where not known
 * @throws QuantityError outside 0 to 917 kg/m3, 190 to 273.16 K
 */
export const calonne2019 = (density: KilogramsPerCubicMetre, temperature: Kelvin, air: Ratio = 1): number => {
  mustLie('conductivity of firn, Calonne 2019', 'density', density, 0, 917, 'kg/m3');
  const ice = yen1981(temperature) / referenceIce;
  const theta = 1 / (1 + Math.exp(-2 * 0.02 * (density - iceConstants.transitionCalonne.value)));
  const firn = referenceIce + 0.003618 * (density - 917);
  return (1 - theta) * ice * air * calonne2011(density) + theta * ice * firn;
};
