import { mustLie } from '../quantity-error.ts';
import type { GlenParameter, Pascals, PerSecond } from '../units.ts';

/** n of Glen's law. The published parameters in use here are all for 3. */
export const glenExponent = 3;

/**
 * Strain rate of ice in secondary creep: A tau^3.
 *
 * Source: J. W. Glen 1955, Proc. R. Soc. A 228, 519 (from memory), in the form of Cuffey & Paterson 2010, ch. 3.
 *
 * @param parameter A; 1e-28 to 1e-22 1/(s Pa3)
 * @param stress effective shear stress tau, 0 to 1e7 Pa; above some 0.2 MPa exponents above 3 are measured
 * @throws QuantityError outside
 */
export const glenStrainRate = (parameter: GlenParameter, stress: Pascals): PerSecond => {
  mustLie("Glen's law", 'creep parameter', parameter, 1e-28, 1e-22, '1/s/Pa3');
  mustLie("Glen's law", 'stress', stress, 0, 1e7, 'Pa');
  return parameter * stress ** glenExponent;
};
