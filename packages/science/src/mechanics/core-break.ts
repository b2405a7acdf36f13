import { diskArea } from '../geometry/circle.ts';
import { mustLie } from '../quantity-error.ts';
import type { Metres, Newtons, Pascals } from '../units.ts';

/**
 * Pull that breaks a core off: tensile strength times cross-section, sigma pi d^2/4.
 *
 * Source: definition of strength. A core that is notched by its catcher, bent or cracked breaks with less; firn with
 * less again. Tensile strengths of ice of 0.7 to 3.1 MPa are published (Petrovic 2003, J. Mater. Sci. 38, from memory).
 *
 * @param diameter of the core, 0.005 to 1 m
 * @param strength 1e3 to 1e7 Pa
 * @throws QuantityError outside
 */
export const coreBreakForce = (diameter: Metres, strength: Pascals): Newtons => {
  mustLie('core break', 'diameter of the core', diameter, 0.005, 1, 'm');
  mustLie('core break', 'tensile strength', strength, 1e3, 1e7, 'Pa');
  return strength * diskArea(diameter);
};
