import { iceConstants } from '../../constants/ice.ts';
import { mustLie } from '../../quantity-error.ts';
import type { Kelvin } from '../../units.ts';

/**
 * Thermal conductivity of ice without bubbles, W/m/K: k = 9.828 exp(-0.0057 T).
 *
 * Source: Y.-C. Yen 1981, CRREL Report 81-10; Cuffey & Paterson 2010, eq. (9.2); Greve & Blatter 2009, eq. (4.37).
 *
 * @param temperature 190 to 273.16 K (lower limit: common practice)
 * @throws QuantityError outside
 */
export const yen1981 = (temperature: Kelvin): number => {
  mustLie('conductivity of ice, Yen 1981', 'temperature', temperature, 190, 273.16, 'K');
  return (
    iceConstants.conductivityYen.value * Math.exp(-iceConstants.conductivityDecayYen.value * temperature)
  );
};
