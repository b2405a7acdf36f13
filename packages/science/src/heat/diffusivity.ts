import { mustLie } from '../quantity-error.ts';
import type {
  JoulesPerKilogramKelvin,
  KilogramsPerCubicMetre,
  SquareMetresPerSecond,
  WattsPerMetreKelvin,
} from '../units.ts';

/**
 * Thermal diffusivity k/(rho c), m2/s: how fast a difference of temperature evens out. A definition, not a model.
 *
 * @param conductivity W/m/K
 * @param heatCapacity specific, J/kg/K
 * @throws QuantityError for what is not above 0
 */
export const diffusivity = (
  conductivity: WattsPerMetreKelvin,
  density: KilogramsPerCubicMetre,
  heatCapacity: JoulesPerKilogramKelvin,
): SquareMetresPerSecond => {
  mustLie('diffusivity', 'conductivity', conductivity, 1e-4, 1e4, 'W/m/K');
  mustLie('diffusivity', 'density', density, 0.1, 3e4, 'kg/m3');
  mustLie('diffusivity', 'heat capacity', heatCapacity, 1, 1e5, 'J/kg/K');
  return conductivity / (density * heatCapacity);
};
