import { iceConstants } from '../../constants/ice.ts';
import { mustLie } from '../../quantity-error.ts';
import type { KilogramsPerCubicMetre } from '../../units.ts';

const ice = iceConstants.conductivityIceJordan.value;
const air = iceConstants.conductivityAirJordan.value;

/**
 * Effective thermal conductivity of snow, W/m/K: k = k_a + (7.75e-5 rho + 1.105e-6 rho^2) (k_i - k_a). The bracket is
 * 1.0003 at 917 kg/m3, so the result ends at the ice of its own constant, whatever the temperature.
 *
 * Source: R. Jordan 1991, CRREL Special Report 91-16 (formula as quoted in public files; k_i 2.29 and k_a 0.023 W/m/K
 * from memory).
 *
 * @throws QuantityError outside 0 to 917 kg/m3
 */
export const jordan1991 = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of snow, Jordan 1991', 'density', density, 0, 917, 'kg/m3');
  return air + (7.75e-5 * density + 1.105e-6 * density * density) * (ice - air);
};
