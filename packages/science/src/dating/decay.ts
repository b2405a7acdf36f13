import { mustLie } from '../quantity-error.ts';
import type { Ratio, Years } from '../units.ts';

/** Decay constant, 1/a. @throws QuantityError for a half-life that is not above 0 */
export const decayConstant = (halfLife: Years): number => {
  mustLie('decay', 'half-life', halfLife, 1e-6, 1e12, 'a');
  return Math.LN2 / halfLife;
};

/**
 * What is left of an activity: A = A0 exp(-ln2 t/T). With a negative time it is what there was before: the
 * back-correction of a measured activity to the day of deposition.
 *
 * Source: law of radioactive decay. Only for a nuclide that nothing else feeds (not 210Pb on its 226Ra, nor 241Am on its
 * 241Pu).
 *
 * @param activity any unit, 0 or more
 * @param elapsed in the years of the half-life
 * @throws QuantityError for a negative activity, a half-life that is not above 0, a time beyond 50 half-lives
 */
export const decayed = (activity: number, elapsed: Years, halfLife: Years): number => {
  mustLie('decay', 'activity', activity, 0, Number.MAX_VALUE, '');
  const rate = decayConstant(halfLife);
  mustLie('decay', 'elapsed time', elapsed, -50 * halfLife, 50 * halfLife, 'a');
  return activity * Math.exp(-rate * elapsed);
};

/** Relative standard uncertainty that the half-life brings: ln2 t u(T)/T^2. */
export const relativeErrorByHalfLife = (elapsed: Years, halfLife: Years, sd: Years): Ratio =>
  (Math.LN2 * Math.abs(elapsed) * sd) / halfLife ** 2;
