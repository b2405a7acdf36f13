import { mustLie, QuantityError } from '../quantity-error.ts';
import { betaBelow } from '../statistics/beta.ts';
import { gammaAbove, gammaBelow } from '../statistics/gamma.ts';
import {
  type BlankKnowledge,
  type CountingLimits,
  type CountingRisks,
  currieLimits,
  mustBeRisks,
} from './currie-limits.ts';

const where = 'detection of counts, exact Poisson';

/** Largest gross count that is not told from a blank of mean B: P(N > n) <= alpha. */
const mostUndetected = (blank: number, alpha: number): number => {
  let n = 0;
  while (gammaBelow(n + 1, blank) > alpha) n += 1;
  return n;
};

/** The same against a blank that counted b: given y + b counts in all, y has a binomial distribution of one half. */
const mostUndetectedPaired = (counted: number, alpha: number): number => {
  let y = counted;
  while (betaBelow(y + 1, counted + 1, 0.5) > alpha) y += 1;
  return y;
};

/** P(N <= n) of a Poisson count. */
const poissonUpTo = (n: number, mean: number): number => gammaAbove(n + 1, mean);

/** Falling function's root above zero, by bisection: the miss falls smoothly from 1 - alpha or so to none. */
const whereMissIs = (beta: number, miss: (net: number) => number): number => {
  let [low, high] = [0, 8];
  while (miss(high) > beta) [low, high] = [high, 2 * high];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (miss(middle) > beta) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
};

/**
 * Critical level and detection limit of a count over a blank, by the Poisson distribution itself.
 *
 * Well-known blank of mean B: the largest gross count n with P(N > n; B) <= alpha, less B; L_D from P(N <= n; B + L_D) =
 * beta. Without a blank n = 0 and L_D = -ln beta, 3.00 at 5 %. Paired blank that counted B: the exact conditional test of
 * two counts; L_D averages over what the blank may count, with B as its mean.
 *
 * Source: definitions of Currie 1968 with exact probabilities; test of two Poisson counts by J. Przyborowski,
 * H. Wilenski 1940, Biometrika 31, 313-323 (from memory). Counts are whole, so that the risk alpha is at most what is
 * asked for.
 *
 * @param blank B, 0 to 500 counts; whole where it is paired
 * @throws QuantityError outside
 */
export const poissonLimits = (
  blank: number,
  known: BlankKnowledge = 'paired',
  risks: CountingRisks = { alpha: 0.05, beta: 0.05 },
): CountingLimits => {
  mustLie(where, 'blank', blank, 0, 500, 'counts');
  mustBeRisks(where, risks);
  const { alpha, beta } = risks;
  if (known === 'well known') {
    const gross = mostUndetected(blank, alpha);
    return {
      critical: gross - blank,
      detection: whereMissIs(beta, (net) => poissonUpTo(gross, blank + net)),
    };
  }
  if (!Number.isInteger(blank))
    throw new QuantityError(where, `the paired blank counted ${blank}`, 'a whole number of counts');
  const likely: { readonly chance: number; readonly gross: number }[] = [];
  const last = Math.ceil(blank + 10 * Math.sqrt(blank));
  for (let counted = 0, chance = Math.exp(-blank); counted <= last; counted += 1) {
    if (counted > 0) chance *= blank / counted;
    if (chance > 1e-15) likely.push({ chance, gross: mostUndetectedPaired(counted, alpha) });
  }
  return {
    critical: mostUndetectedPaired(blank, alpha) - blank,
    detection: whereMissIs(beta, (net) =>
      likely.reduce((sum, { chance, gross }) => sum + chance * poissonUpTo(gross, blank + net), 0),
    ),
  };
};

/** Below this many blank counts the normal distribution of `currieLimits` is off. */
const FEW = 5;

/** `poissonLimits` below 5 blank counts, `currieLimits` from there on, and which of them it was. */
export const countingLimits = (
  blank: number,
  known: BlankKnowledge = 'paired',
  risks: CountingRisks = { alpha: 0.05, beta: 0.05 },
): CountingLimits & { readonly by: 'exact Poisson' | 'Currie 1968' } =>
  blank < FEW
    ? { ...poissonLimits(blank, known, risks), by: 'exact Poisson' }
    : { ...currieLimits(blank, known, risks), by: 'Currie 1968' };
