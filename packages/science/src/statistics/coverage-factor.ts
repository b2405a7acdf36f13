import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { studentQuantile } from './student.ts';

/**
 * Coverage factor of a level of confidence: Student's t of the effective degrees of freedom, cut down to the next whole
 * number (JCGM 100:2008, G.3.3 and G.4.1, note 1).
 *
 * @param level share between minus and plus, above 0 and below 1
 * @throws QuantityError
 */
export const coverageFactor = (level: Ratio, degrees: number): Ratio => {
  mustLie('coverage factor', 'level of confidence', level, 0.01, 0.999999, '');
  if (!(degrees >= 1))
    throw new QuantityError('coverage factor', `degrees of freedom are ${degrees}`, '1 or more');
  return studentQuantile((1 + level) / 2, Math.floor(degrees));
};
