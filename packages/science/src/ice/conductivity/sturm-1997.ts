import { mustLie } from '../../quantity-error.ts';
import type { KilogramsPerCubicMetre } from '../../units.ts';

/**
 * Effective thermal conductivity of seasonal snow, W/m/K, r = density in g/cm3:
 * k = 0.138 - 1.01 r + 3.233 r^2 for 0.156 <= r <= 0.6, k = 0.023 + 0.234 r below.
 *
 * Source: M. Sturm, J. Holmgren, M. Koenig, K. Morris 1997, J. Glaciol. 43(143), 26-41,
 * doi:10.3189/S0022143000002781; upper limit 600 kg/m3 from memory.
 *
 * @throws QuantityError outside 0 to 600 kg/m3
 */
export const sturm1997 = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of snow, Sturm 1997', 'density', density, 0, 600, 'kg/m3');
  const r = density / 1000;
  return r < 0.156 ? 0.023 + 0.234 * r : 0.138 - 1.01 * r + 3.233 * r * r;
};

/**
 * The same paper's second regression, which the paper finds better at low density: k = 10^(2.650 r - 1.652).
 *
 * @throws QuantityError outside 0 to 600 kg/m3
 */
export const sturm1997Log = (density: KilogramsPerCubicMetre): number => {
  mustLie('conductivity of snow, Sturm 1997 (logarithmic)', 'density', density, 0, 600, 'kg/m3');
  return 10 ** (2.65 * (density / 1000) - 1.652);
};
