import type { Kelvin, KilogramsPerCubicMetre } from '../../units.ts';
import { calonne2011 } from './calonne-2011.ts';
import { calonne2019 } from './calonne-2019.ts';
import { jordan1991 } from './jordan-1991.ts';
import { marchenko2019 } from './marchenko-2019.ts';
import { schwerdtfeger1963 } from './schwerdtfeger-1963.ts';
import { sturm1997, sturm1997Log } from './sturm-1997.ts';
import { vanDusen1929 } from './van-dusen-1929.ts';
import { yen1981Snow } from './yen-1981-snow.ts';

export { yen1981 } from './yen-1981.ts';

type Conductivity = (density: KilogramsPerCubicMetre, temperature: Kelvin) => number;

/**
 * Thermal conductivity of snow and firn, W/m/K, by density (kg/m3) and temperature (K), under the names of those who
 * published them. They differ by a factor of 2 at 350 kg/m3: whoever shows a result names the variant. Each throws
 * QuantityError outside its range.
 */
export const firnConductivity = {
  'Calonne 2019': calonne2019,
  'Calonne 2011': calonne2011,
  'Sturm 1997': sturm1997,
  'Sturm 1997 (logarithmic)': sturm1997Log,
  'Yen 1981 (snow)': yen1981Snow,
  'Jordan 1991': jordan1991,
  'Marchenko 2019': marchenko2019,
  'Van Dusen 1929': vanDusen1929,
  'Schwerdtfeger 1963': schwerdtfeger1963,
} as const satisfies Readonly<Record<string, Conductivity>>;
