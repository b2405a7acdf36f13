import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';

const HALF_LOG_TWO_PI = 0.9189385332046727;
const ONE_LESS_EULER = 0.42278433509846713;

/** zeta(k) - 1 for k = 2, 3, …: computed with 50 digits. */
const zetaLessOne = [
  0.6449340668482264, 0.2020569031595943, 0.08232323371113819, 0.03692775514336993, 0.01734306198444914,
  0.008349277381922827, 0.004077356197944339, 0.002008392826082214, 0.0009945751278180853,
  0.0004941886041194646, 0.0002460865533080483, 0.00012271334757848915, 6.124813505870483e-5,
  3.058823630702049e-5, 1.528225940865187e-5, 7.637197637899763e-6, 3.81729326499984e-6, 1.908212716553939e-6,
  9.539620338727962e-7, 4.769329867878064e-7, 2.38450502727733e-7, 1.1921992596531106e-7,
  5.960818905125948e-8, 2.980350351465228e-8, 1.4901554828365043e-8,
];

/** ln Gamma(2 + e) for |e| <= 0.5 (Abramowitz & Stegun 1964, 6.1.33): exact to the digit near its zero. */
const nearTwo = (e: number): number => {
  let sum = 0;
  for (let i = zetaLessOne.length - 1; i >= 0; i--) sum = -e * (sum - zetaLessOne[i] / (i + 2));
  return e * (ONE_LESS_EULER + sum);
};

/** What Stirling's formula leaves of ln Gamma(x + 1) (Abramowitz & Stegun 1964, 6.1.41), x of 10 or more. */
const stirlingSeries = (x: number): number => {
  const y = 1 / (x * x);
  return (
    (1 / 12 -
      y * (1 / 360 - y * (1 / 1260 - y * (1 / 1680 - y * (1 / 1188 - y * (691 / 360360 - y / 156)))))) /
    x
  );
};

/**
 * Logarithm of the gamma function, to some 1e-15 of itself or of 1.
 *
 * @param x above 0
 * @throws QuantityError for any other x
 */
export const logGamma = (x: Ratio): Ratio => {
  mustLie('gamma function', 'argument', x, Number.MIN_VALUE, Number.MAX_VALUE, '');
  if (x < 0.5) return logGamma(x + 1) - Math.log(x);
  if (x <= 1.5) return nearTwo(x - 1) - Math.log1p(x - 1);
  if (x <= 2.5) return nearTwo(x - 2);
  let product = 1;
  let y = x;
  for (; y < 10; y += 1) product *= y;
  return (y - 0.5) * Math.log(y) - y + HALF_LOG_TWO_PI + stirlingSeries(y) - Math.log(product);
};

/** ln Gamma(x + 1) - (x + 1/2) ln x + x - ln(2 pi)/2. */
export const stirlingError = (x: number): number =>
  x >= 10 ? stirlingSeries(x) : logGamma(x + 1) - (x + 0.5) * Math.log(x) + x - HALF_LOG_TWO_PI;

/** x ln(x/m) + m - x, without the cancellation that it has near x = m (C. Loader 2000). */
export const deviance = (x: number, m: number): number => {
  const t = (m - x) / x;
  return Math.abs(t) < 0.5 ? x * (t - Math.log1p(t)) : x * Math.log(x / m) + m - x;
};

/** x^a e^-x / Gamma(a + 1) by the saddle point (C. Loader 2000): no logarithm of a large number is taken off another. */
const poissonTerm = (a: number, x: number): number =>
  Math.exp(-stirlingError(a) - deviance(a, x)) / Math.sqrt(2 * Math.PI * a);

const mostTerms = 1e5;

/** Sum of x^k / ((a + 1)…(a + k)). */
const series = (a: number, x: number): number => {
  let term = 1;
  let sum = 1;
  for (let k = 1; k < mostTerms && term > 1e-17 * sum; k++) {
    term *= x / (a + k);
    sum += term;
  }
  return sum;
};

/** Gamma(a, x) / (x^a e^-x) by its continued fraction, Lentz's way (Abramowitz & Stegun 1964, 6.5.31). */
const fraction = (a: number, x: number): number => {
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let k = 1; k < mostTerms; k++) {
    const an = -k * (k - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    h *= d * c;
    if (Math.abs(d * c - 1) < 2e-16) break;
  }
  return h;
};

const checked = (shape: number, x: number): void => {
  mustLie('gamma distribution', 'shape', shape, 1e-10, 1e7, '');
  if (!(x >= 0)) throw new QuantityError('gamma distribution', `x is ${x}`, '0 or more');
};

/**
 * Regularised lower incomplete gamma function P(shape, x): share of the gamma distribution below x. The chi-square
 * distribution of n degrees of freedom below c is P(n/2, c/2).
 *
 * Source: Abramowitz & Stegun 1964, 6.5.29 (series) and 6.5.31 (continued fraction).
 *
 * @param shape 1e-10 to 1e7
 * @param x 0 or more
 * @throws QuantityError
 */
export const gammaBelow = (shape: Ratio, x: Ratio): Ratio => {
  checked(shape, x);
  if (x === 0) return 0;
  if (x === Number.POSITIVE_INFINITY) return 1;
  return x < shape + 1 ? poissonTerm(shape, x) * series(shape, x) : 1 - gammaAbove(shape, x);
};

/** 1 - gammaBelow, without cancellation: the p-value of a chi-square. */
export const gammaAbove = (shape: Ratio, x: Ratio): Ratio => {
  checked(shape, x);
  if (x === Number.POSITIVE_INFINITY) return 0;
  return x < shape + 1 ? 1 - gammaBelow(shape, x) : shape * poissonTerm(shape, x) * fraction(shape, x);
};
