import { isotopes } from '../constants/isotopes.ts';
import type { Permil, Ratio } from '../units.ts';
import { type Measured, mustBeMeasured } from './measured.ts';

export const heavyIsotopes = ['2H', '18O', '17O'] as const;
export type HeavyIsotope = (typeof heavyIsotopes)[number];

/** Ratio of the isotope to the light one in ocean water, with what was published as its error. */
const inOceanWater = {
  '2H': isotopes.vsmow2H,
  '18O': isotopes.vsmow18O,
  '17O': isotopes.vsmow17O,
} as const satisfies Readonly<Record<HeavyIsotope, Measured>>;

/**
 * Ratio of heavy to light isotope of a delta: R = R_VSMOW (1 + delta/1000).
 *
 * Source: definition; R_VSMOW of 2H by Hagemann et al. 1970, of 18O by Baertschi 1976, of 17O by Li et al. 1988. Errors
 * of delta and of R_VSMOW, independent.
 *
 * @param delta -1000 to 1e5 permil
 * @throws QuantityError outside
 */
export const isotopeRatio = (delta: Measured<Permil>, isotope: HeavyIsotope): Measured<Ratio> => {
  mustBeMeasured(`isotope ratio, ${isotope}`, 'delta', delta, '[ppth]', -1000, 1e5);
  const ocean = inOceanWater[isotope];
  const times = 1 + delta.value / 1000;
  return {
    value: ocean.value * times,
    sd: Math.hypot(ocean.sd * times, (ocean.value * delta.sd) / 1000),
  };
};

/**
 * Delta of an isotope ratio: 1000 (R/R_VSMOW - 1) permil.
 *
 * @param ratio 0 to 1
 * @throws QuantityError outside
 */
export const isotopeDelta = (ratio: Measured<Ratio>, isotope: HeavyIsotope): Measured<Permil> => {
  mustBeMeasured(`isotope delta, ${isotope}`, 'ratio', ratio, '', 0, 1);
  const ocean = inOceanWater[isotope];
  const times = ratio.value / ocean.value;
  return {
    value: 1000 * (times - 1),
    sd: 1000 * Math.hypot(ratio.sd / ocean.value, (times * ocean.sd) / ocean.value),
  };
};
