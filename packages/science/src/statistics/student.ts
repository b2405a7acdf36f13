import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { betaBelow } from './beta.ts';
import { logGamma, stirlingError } from './gamma.ts';
import { normalBelow, normalQuantile } from './normal.ts';

const where = "Student's t distribution";
/** From here on it is the normal distribution to 1e-9. */
const mostDegrees = 1e9;

const mustBeDegrees = (dof: number): void => {
  if (dof === Number.POSITIVE_INFINITY) return;
  mustLie(where, 'degrees of freedom', dof, 0.1, Number.MAX_VALUE, '');
};

/** Gamma((dof + 1)/2)/Gamma(dof/2)/sqrt(pi dof); where both are large by what Stirling leaves of them. */
const front = (dof: number): number => {
  const half = dof / 2;
  const ratio =
    half < 20
      ? Math.exp(logGamma(half + 0.5) - logGamma(half))
      : Math.exp(half * Math.log1p(-0.5 / half) + 0.5 + stirlingError(half - 0.5) - stirlingError(half)) *
        Math.sqrt(half);
  return ratio / Math.sqrt(Math.PI * dof);
};

/** Density at t. */
const density = (t: number, dof: number): number =>
  front(dof) * Math.exp(-((dof + 1) / 2) * Math.log1p((t * t) / dof));

/** Whether t is so far out that the share beyond falls as t^-dof: the next term is 1/t^2 of that. */
const isFar = (t: number, dof: number): boolean => t > 1e20 * Math.sqrt(dof);

/** Share below -s, for s of 0 or more. */
const tail = (s: number, dof: number): number => {
  if (dof > mostDegrees) return normalBelow(-s);
  if (isFar(s, dof))
    return (front(dof) / dof) * Math.exp(((dof + 1) / 2) * Math.log(dof) - dof * Math.log(s));
  const q = (s * s) / dof;
  return 0.5 * betaBelow(dof / 2, 0.5, 1 / (1 + q), q / (1 + q));
};

/**
 * Share of Student's t distribution below t; twice that of -|t| is the two-sided p of a test.
 *
 * Source: Abramowitz & Stegun 1964, 26.7.1.
 *
 * @param dof degrees of freedom, 0.1 or more; Infinity is the normal distribution
 * @throws QuantityError
 */
export const studentBelow = (t: Ratio, dof: Ratio): Ratio => {
  mustBeDegrees(dof);
  if (Number.isNaN(t)) throw new QuantityError(where, 't is no number', 'any number');
  return t <= 0 ? tail(-t, dof) : 1 - tail(t, dof);
};

/** Newton's step of ln s on the logarithm of the share; no further than 50 at once: the first one can be too bold. */
const logStep = (ratio: number, share: number, s: number, dof: number): number =>
  Math.min(Math.log(ratio) / (isFar(s, dof) ? dof : (s * density(s, dof)) / share), 50);

/**
 * The t below which the share p of Student's distribution lies: Newton's steps, on the logarithms of share and t where p
 * is small (both are concave there, so that no step can run away).
 *
 * @param p 0 < p < 1
 * @throws QuantityError
 */
export const studentQuantile = (p: Ratio, dof: Ratio): Ratio => {
  mustBeDegrees(dof);
  mustLie(where, 'share', p, Number.MIN_VALUE, 1 - Number.EPSILON / 2, '');
  if (p === 0.5) return 0;
  if (p > 0.5) return -studentQuantile(1 - p, dof);
  if (dof > mostDegrees) return normalQuantile(p);
  let s = p > 0.1 ? 0 : -normalQuantile(p);
  for (let step = 0; step < 200; step++) {
    const share = tail(s, dof);
    if (share === 0 || s === Number.POSITIVE_INFINITY) break;
    const next =
      p > 0.1 ? s + (share - p) / density(s, dof) : s * Math.exp(logStep(share / p, share, s, dof));
    if (next < Number.POSITIVE_INFINITY && Math.abs(next - s) <= 4e-16 * next) return -next;
    s = next;
  }
  // rounding may keep it from standing still; the share itself says whether it is there
  if (Math.abs(tail(s, dof) / p - 1) < 1e-12) return -s;
  throw new QuantityError(
    where,
    `the t of share ${p} with ${dof} degrees of freedom is beyond the numbers of a machine`,
    'a larger share',
  );
};
