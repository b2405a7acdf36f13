import { mustLie } from '../quantity-error.ts';
import type { MicroequivalentsPerLitre, Ratio } from '../units.ts';

/**
 * Hydrogen ion of a pH: 10^(6 - pH) ueq/l. Its standard uncertainty is ln 10 times itself times that of the pH.
 *
 * Source: definition of pH with concentration in place of activity, which is right to 1 % below 100 ueq/l (from memory).
 *
 * @param ph 0 to 14
 * @throws QuantityError outside
 */
export const hydrogenOfPh = (ph: Ratio): MicroequivalentsPerLitre => {
  mustLie('acidity', 'pH', ph, 0, 14, '');
  return 10 ** (6 - ph);
};

/**
 * pH of a hydrogen ion concentration: 6 - log10 of it in ueq/l. A kilogram of melt water is taken as a litre.
 *
 * @param hydrogen 1e-8 to 1e6 ueq/l
 * @throws QuantityError outside
 */
export const phOfHydrogen = (hydrogen: MicroequivalentsPerLitre): Ratio => {
  mustLie('acidity', 'hydrogen ion', hydrogen, 1e-8, 1e6, 'ueq/l');
  return 6 - Math.log10(hydrogen);
};
