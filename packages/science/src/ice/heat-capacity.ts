import { iceConstants } from '../constants/ice.ts';
import { mustLie } from '../quantity-error.ts';
import type { Kelvin, Ratio } from '../units.ts';

/**
 * Straight lines that are used for the heat capacity of ice, c = a + b T:
 * - `Ritz 1987`: 146.3 + 7.253 T; C. Ritz 1987; R. Greve and H. Blatter 2009, *Dynamics of Ice Sheets and Glaciers*.
 * - `Cuffey & Paterson 2010`: 152.5 + 7.122 T; *The Physics of Glaciers*, 4th edition, eq. (9.1).
 *
 * Against IAPWS R10-06 they are 1.6 % and 0.3 % high at -20 degrees C: `iceProperties` is the one to use; these are
 * for comparing with work that used them.
 */
export type HeatCapacityLine = 'Ritz 1987' | 'Cuffey & Paterson 2010';

/** J/kg/K and J/kg/K2. */
const lines: Readonly<Record<HeatCapacityLine, readonly [number, Ratio]>> = {
  'Ritz 1987': [iceConstants.heatCapacityRitz.value, iceConstants.heatCapacitySlopeRitz.value],
  'Cuffey & Paterson 2010': [
    iceConstants.heatCapacityCuffey.value,
    iceConstants.heatCapacitySlopeCuffey.value,
  ],
};

/**
 * Specific heat capacity of ice by a straight line, J/kg/K; sources as `HeatCapacityLine` names them.
 *
 * @param temperature 150 to 273.16 K
 * @throws QuantityError outside
 */
export const heatCapacityByLine = (temperature: Kelvin, line: HeatCapacityLine): number => {
  mustLie(`heat capacity of ice, ${line}`, 'temperature', temperature, 150, 273.16, 'K');
  const [constant, slope] = lines[line];
  return constant + slope * temperature;
};
