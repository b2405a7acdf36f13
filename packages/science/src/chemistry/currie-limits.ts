import { mustLie } from '../quantity-error.ts';
import { normalQuantile } from '../statistics/normal.ts';
import type { Ratio } from '../units.ts';

/** How the blank is known: counted as long as the sample (`paired`), or so long that it has no error (`well known`). */
export const blankKnowledge = ['paired', 'well known'] as const;
export type BlankKnowledge = (typeof blankKnowledge)[number];

/** Net counts, above the blank. */
export interface CountingLimits {
  /** A net count above it is told from none. */
  readonly critical: number;
  /** True net count that is told from none with probability 1 - beta. */
  readonly detection: number;
}

/** Risks: alpha of finding what is not there, beta of missing what is. */
export interface CountingRisks {
  readonly alpha: Ratio;
  readonly beta: Ratio;
}

export const mustBeRisks = (where: string, { alpha, beta }: CountingRisks): void => {
  mustLie(where, 'alpha', alpha, 1e-6, 0.5, '');
  mustLie(where, 'beta', beta, 1e-6, 0.5, '');
};

/**
 * Critical level and detection limit of a count over a blank of B counts: L_C = k_a sqrt(e B), with e = 2 for a paired
 * blank and 1 for a well-known one; L_D solves L_D = L_C + k_b sqrt(L_D + e B). At alpha = beta = 5 % that is
 * 2.33 sqrt(B) and 2.71 + 4.65 sqrt(B), or 1.64 sqrt(B) and 2.71 + 3.29 sqrt(B).
 *
 * Source: L. A. Currie 1968, Anal. Chem. 40, 586-593, doi:10.1021/ac60259a007 (paired factors read in public files, the
 * others from memory). Validity: counts enough to be normal, B of some 5 or more; below, `poissonLimits`.
 *
 * @param blank B, 0 to 1e12 counts
 * @throws QuantityError outside
 */
export const currieLimits = (
  blank: number,
  known: BlankKnowledge = 'paired',
  risks: CountingRisks = { alpha: 0.05, beta: 0.05 },
): CountingLimits => {
  const where = 'detection of counts, Currie 1968';
  mustLie(where, 'blank', blank, 0, 1e12, 'counts');
  mustBeRisks(where, risks);
  const variance = (known === 'paired' ? 2 : 1) * blank;
  const [a, b] = [-normalQuantile(risks.alpha), -normalQuantile(risks.beta)];
  const critical = a * Math.sqrt(variance);
  const root = Math.sqrt(b * b + 4 * critical + 4 * variance);
  return { critical, detection: critical + (b * (b + root)) / 2 };
};

/**
 * The same at 5 % by the working formulas with factors of four digits: 2.326 sqrt(B) and 2.706 + 4.653 sqrt(B) for a
 * paired blank, 1.645 sqrt(B) and 2.706 + 3.290 sqrt(B) for a well-known one. They differ from the others by 0.02 % at
 * most.
 *
 * Source: Currie 1968, table II, which prints 2.33, 2.71, 4.65, 1.64, 3.29; the fourth digit from k = 1.645.
 *
 * @throws QuantityError as `currieLimits`
 */
export const currieWorkingLimits = (blank: number, known: BlankKnowledge = 'paired'): CountingLimits => {
  mustLie('detection of counts, Currie 1968', 'blank', blank, 0, 1e12, 'counts');
  const root = Math.sqrt(blank);
  return known === 'paired'
    ? { critical: 2.326 * root, detection: 2.706 + 4.653 * root }
    : { critical: 1.645 * root, detection: 2.706 + 3.29 * root };
};
