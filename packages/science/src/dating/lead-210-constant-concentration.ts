import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Years } from '../units.ts';
import { decayConstant } from './decay.ts';

/**
 * Age by unsupported 210Pb of constant concentration (CIC): snow fell with the same concentration always, so
 * t = ln(C0/C)/lambda.
 *
 * Source: E. D. Goldberg 1963; P. G. Appleby and F. Oldfield 1978, Catena 5, 1-8 (names of the models from memory).
 *
 * Validity: what 226Ra supports is taken off first. Fresh snow varies several-fold from fall to fall, so single samples
 * scatter far more than their counting errors say.
 *
 * @param surface concentration of fresh snow, any unit
 * @param here concentration at the depth, the same unit, above 0
 * @returns negative where the concentration is above that of the surface
 * @throws QuantityError for a concentration that is not above 0
 */
export const constantConcentrationAge = (surface: number, here: number, halfLife: Years): Years => {
  const where = '210Pb, constant concentration';
  for (const [name, value] of Object.entries({
    'concentration at the surface': surface,
    concentration: here,
  })) {
    if (!(value > 0))
      throw new QuantityError(
        where,
        `${name} is ${value}`,
        'above 0: take off the supported part, leave out what is below detection',
      );
    mustLie(where, name, value, 0, 1e12, '');
  }
  return Math.log(surface / here) / decayConstant(halfLife);
};
