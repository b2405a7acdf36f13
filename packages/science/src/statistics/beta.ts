import { mustLie } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { deviance, stirlingError } from './gamma.ts';

/** x^a y^b / B(a, b) by the saddle point (C. Loader 2000). */
const front = (a: number, b: number, x: number, y: number): number => {
  const n = a + b;
  return (
    Math.sqrt((a * b) / (2 * Math.PI * n)) *
    Math.exp(stirlingError(n) - stirlingError(a) - stirlingError(b) - deviance(a, n * x) - deviance(b, n * y))
  );
};

/**
 * Continued fraction of the incomplete beta function: the even part of Abramowitz & Stegun 1964, 26.5.8, Lentz's way. Where
 * x is nearer to 1 than to 0 the differences from 1 are worked out in y = 1 - x: they would lose their digits (many
 * degrees of freedom).
 */
const fraction = (a: number, b: number, x: number, y: number): number => {
  let oddBefore = (-(a + b) * x) / (a + 1);
  const isNearOne = x > 0.5;
  let d = 1 / (isNearOne ? (1 - b + (a + b) * y) / (a + 1) : 1 + oddBefore);
  let h = d;
  let c = 1e300;
  for (let m = 1; m < 1e5; m++) {
    const s = a + 2 * m;
    const even = (m * (b - m) * x) / ((s - 1) * s);
    const odd = (-(a + m) * (a + b + m) * x) / (s * (s + 1));
    const numerator = -oddBefore * even;
    const denominator = isNearOne
      ? ((s - 1) * (1 + 2 * m - b) + 2 * m * (b - m)) / (s * s - 1) - (y * (even + odd)) / x
      : 1 + even + odd;
    d = 1 / (denominator + numerator * d);
    c = denominator + numerator / c;
    h *= c * d;
    if (Math.abs(c * d - 1) < 2e-16) break;
    oddBefore = odd;
  }
  return h;
};

/**
 * Regularised incomplete beta function I_x(a, b): share of the beta distribution below x.
 *
 * Source: Abramowitz & Stegun 1964, 26.5.8, 26.5.2.
 *
 * @param a 1e-6 to 1e10; so is b
 * @param y 1 - x, where the caller knows it with more digits than x leaves it
 * @throws QuantityError
 */
export const betaBelow = (a: Ratio, b: Ratio, x: Ratio, y: Ratio = 1 - x): Ratio => {
  const where = 'beta distribution';
  mustLie(where, 'a', a, 1e-6, 1e10, '');
  mustLie(where, 'b', b, 1e-6, 1e10, '');
  mustLie(where, 'x', x, 0, 1, '');
  if (x === 0) return 0;
  if (y === 0) return 1;
  return x < (a + 1) / (a + b + 2)
    ? (front(a, b, x, y) * fraction(a, b, x, y)) / a
    : 1 - (front(b, a, y, x) * fraction(b, a, y, x)) / b;
};
