import { iceConstants } from '../constants/ice.ts';
import { mustLie } from '../quantity-error.ts';
import type { Kelvin, Pascals } from '../units.ts';
import { iceGibbs } from './gibbs.ts';
import { waterGibbs } from './water-gibbs.ts';

/**
 * Ways to say at what temperature ice melts under pressure:
 * - `equilibrium`: ice Ih (IAPWS R10-06) and pure water (IAPWS SR7-09) have the same Gibbs energy. Water without air.
 * - `pure`, `air-saturated`: 273.16 K less 7.42e-8 or 9.8e-8 K/Pa (glaciological handbooks; values from memory).
 * - `Luethi 2002`: 273.16 K less 7.9e-8 K/Pa (M. Luethi et al. 2002, J. Glaciol. 48, 369-385).
 */
export type MeltingVariant = 'equilibrium' | 'pure' | 'air-saturated' | 'Luethi 2002';

/** K/Pa */
const slopes = {
  pure: iceConstants.meltingSlopePure.value,
  'air-saturated': iceConstants.meltingSlopeAir.value,
  'Luethi 2002': iceConstants.meltingSlopeLuethi.value,
} as const;
const triple: Kelvin = iceConstants.tripleTemperature.value;

/**
 * Melting point of ice, by the source that `MeltingVariant` names.
 *
 * @param pressure 0 to 100 MPa, absolute
 * @throws QuantityError outside
 */
export const meltingPoint = (pressure: Pascals, variant: MeltingVariant = 'equilibrium'): Kelvin => {
  mustLie('melting point of ice', 'pressure', pressure, 0, 100e6, 'Pa');
  if (variant !== 'equilibrium') return triple - slopes[variant] * pressure;
  let temperature = triple - slopes.pure * pressure;
  for (let step = 0; step < newtonSteps; step++) {
    const ice = iceGibbs(Math.min(temperature, triple), pressure);
    const water = waterGibbs(temperature, pressure);
    temperature -= (ice.g - water.g) / (ice.gT - water.gT);
  }
  return temperature;
};
/** The two curves are all but straight there: three halve the error to below 1e-12 K, more cost nothing. */
const newtonSteps = 6;

/**
 * Heat that melts a kilogram of ice at its melting point, J/kg: difference of the enthalpies of water and ice
 * (same two releases).
 *
 * @param pressure 0 to 100 MPa, absolute
 * @throws QuantityError outside
 */
export const latentHeatOfMelting = (pressure: Pascals): number => {
  const temperature = meltingPoint(pressure);
  return temperature * (iceGibbs(temperature, pressure).gT - waterGibbs(temperature, pressure).gT);
};
