import { waterDensity } from '../density/cylinder.ts';
import type { Metres } from '../units.ts';
import type { FirnColumn } from './herron-langway.ts';

/**
 * Vertical strain rate of firn that does nothing but densify, 1/a, negative where it shortens:
 * e(z) = -(1/rho) d rho/dt = -c (rho_i - rho)/rho with c = k0 A above 550 kg/m3, k1 A^0.5 below.
 *
 * Source: conservation of mass in one dimension; rates of Herron & Langway 1980. What the glacier's flow adds
 * (some 1e-3/a at a saddle; common practice) is not in it. At 550 kg/m3 the rate jumps, as the model's does.
 *
 * @throws QuantityError for a depth above the surface
 */
export const firnStrainRate = (column: FirnColumn, depth: Metres): number => {
  const { k0, k1, accumulation, iceDensity } = column;
  const density = column.density(depth);
  const rate = depth < column.depth550 ? k0 * accumulation : k1 * Math.sqrt(accumulation);
  return (-rate * (iceDensity - density)) / density;
};

/**
 * How fast firn sinks away from the surface in the steady state, m/a: A 1000/rho.
 *
 * @throws QuantityError for a depth above the surface
 */
export const sinkingRate = (column: FirnColumn, depth: Metres): number =>
  (column.accumulation * waterDensity) / column.density(depth);
