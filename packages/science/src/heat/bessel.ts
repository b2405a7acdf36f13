import { mustLie } from '../quantity-error.ts';

/**
 * Bessel functions of the first kind, order 0 and 1.
 *
 * J_n(x) = (1/2 pi) integral over a full turn of cos(n theta - x sin theta), by the trapezoidal rule with N points. On a
 * periodic analytic function the rule is off by J of order N and more, which vanish faster than any power once N exceeds
 * x: nothing but rounding is left (absolute error below 1e-15 (1 + x/100)). Folded: J_0 takes cos(x sin theta), J_1 takes
 * sin(x sin theta) sin theta, both symmetric in the quarters of the turn.
 *
 * Own code, because the small libraries at hand give 8 digits, and the full ones bring hundreds of packages.
 *
 * Source: NIST Digital Library of Mathematical Functions, eq. (10.9.2) (from memory); L. N. Trefethen and J. A. C.
 * Weideman 2014, SIAM Review 56, 385-458 (from memory).
 *
 * @throws QuantityError for an argument outside -2000 to 2000
 */
export const besselJ0 = (x: number): number => {
  const points = quarterPoints(x, 'J0');
  let sum = 0.5 * (1 + Math.cos(x));
  for (let k = 1; k < points; k++) sum += Math.cos(x * Math.sin((k * Math.PI) / (2 * points)));
  return sum / points;
};

/** See `besselJ0`. */
export const besselJ1 = (x: number): number => {
  const points = quarterPoints(x, 'J1');
  let sum = 0.5 * Math.sin(x);
  for (let k = 1; k < points; k++) {
    const sine = Math.sin((k * Math.PI) / (2 * points));
    sum += Math.sin(x * sine) * sine;
  }
  return sum / points;
};

/** Steps in a quarter of the turn: four times as many in all must exceed x by a margin. */
const quarterPoints = (x: number, name: string): number => {
  mustLie(`Bessel function ${name}`, 'argument', x, -2000, 2000, '');
  const size = Math.abs(x);
  return Math.ceil(size / 4 + 2 * Math.cbrt(size) + 8);
};
