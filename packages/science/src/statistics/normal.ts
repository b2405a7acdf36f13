import { scaledErfc } from '../depth/gaussian-tail.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';

const where = 'normal distribution';

/**
 * exp(-z^2/2). The square is taken in two parts, of which the first is exact (Cody 1969): far out it would lose digits.
 */
const bell = (z: number): number => {
  if (Math.abs(z) > 40) return 0;
  const near = Math.trunc(z * 16) / 16;
  return Math.exp(-0.5 * near * near) * Math.exp(-0.5 * (z - near) * (z + near));
};

/** Density of the standard normal distribution at z. */
export const normalDensity = (z: Ratio): Ratio => bell(z) / Math.sqrt(2 * Math.PI);

/**
 * Share of the standard normal distribution below z, to some 1e-14 of itself, also far below (down to z = -37).
 *
 * Source: definition (M. Abramowitz & I. Stegun 1964, 26.2.2 and 26.2.29); complementary error function by Cody 1969.
 */
export const normalBelow = (z: Ratio): Ratio => {
  if (Number.isNaN(z)) throw new QuantityError(where, 'z is no number', 'any number');
  return z > 0 ? 1 - normalBelow(-z) : 0.5 * bell(z) * scaledErfc(-z * Math.SQRT1_2);
};

/** Abramowitz & Stegun 1964, 26.2.23: to 4.5e-4, for p up to a half. */
const roughQuantile = (p: number): number => {
  const t = Math.sqrt(-2 * Math.log(p));
  return (
    (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t
  );
};

/**
 * The z below which the share p of the standard normal distribution lies: a rough value, and Halley's steps from there,
 * each of which triples the digits.
 *
 * Source: M. Abramowitz & I. Stegun 1964, 26.2.23 (start); E. Halley's method (from memory).
 *
 * @param p 0 < p < 1; above a half its distance from 1 carries the digits
 * @throws QuantityError for any other p
 */
export const normalQuantile = (p: Ratio): Ratio => {
  mustLie(where, 'share', p, Number.MIN_VALUE, 1 - Number.EPSILON / 2, '');
  if (p === 0.5) return 0;
  if (p > 0.5) return -normalQuantile(1 - p);
  let z = roughQuantile(p);
  for (let step = 0; step < 3; step++) {
    const off = (normalBelow(z) - p) / normalDensity(z);
    z -= off / (1 + 0.5 * z * off);
  }
  return z;
};
