import { mustLie } from '../quantity-error.ts';

const MODULUS = 2147483647;
const MULTIPLIER = 16807;

/**
 * The minimal standard generator s <- 16807 s mod 2^31 - 1, for series that others have to reproduce with any tool: every
 * product stays below 2^53. For chance itself take `seeded`: this one has too short a period.
 *
 * Source: S. K. Park & K. W. Miller 1988, "Random number generators: good ones are hard to find", Commun. ACM 31, 1192-1201,
 * doi:10.1145/63039.63042.
 *
 * @param seed whole, 1 to 2147483646
 * @returns the next s, from the first one after the seed
 * @throws QuantityError
 */
export const minimalStandard = (seed: number): (() => number) => {
  mustLie('Park & Miller 1988', 'seed', seed, 1, MODULUS - 1, '');
  let state = Math.floor(seed);
  return () => {
    state = (MULTIPLIER * state) % MODULUS;
    return state;
  };
};
