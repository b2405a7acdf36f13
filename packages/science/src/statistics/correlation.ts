import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { anomalies, autocorrelation } from './autocorrelation.ts';
import { capped, effectivePairs, effectivePairsByLags } from './effective-size.ts';
import { normalQuantile } from './normal.ts';
import { studentBelow } from './student.ts';

export interface CorrelationTest {
  /** Student's t; null where r is 1 or -1: it has no bound there. */
  readonly t: Ratio | null;
  /** Two-sided: chance of a correlation as far from 0 where there is none. */
  readonly p: Ratio;
  readonly low: Ratio;
  readonly high: Ratio;
}

const where = 'correlation';

/**
 * Pearson's correlation of pairs.
 *
 * @throws QuantityError for unlike lengths, fewer than 4 pairs, a series that doesn't change
 */
export const pearson = (x: readonly number[], y: readonly number[]): Ratio => {
  if (x.length !== y.length)
    throw new QuantityError(where, `${x.length} x, ${y.length} y`, 'as many of one as of the other');
  const u = anomalies(where, x);
  const v = anomalies(where, y);
  let [xx, xy, yy] = [0, 0, 0];
  for (let i = 0; i < u.length; i++) {
    xx += u[i] * u[i];
    xy += u[i] * v[i];
    yy += v[i] * v[i];
  }
  return Math.min(Math.max(xy / Math.sqrt(xx * yy), -1), 1);
};

/**
 * Test and interval of a correlation of n pairs (effective ones, where the series have memory): Student's t with n - 2
 * degrees of freedom, and Fisher's z = artanh r, whose standard deviation is 1/sqrt(n - 3).
 *
 * Source: R. A. Fisher 1921, Metron 1, 3-32 (from memory); with an effective n: Bretherton et al. 1999.
 *
 * @param n above 3, need not be whole
 * @param level share of the interval
 * @throws QuantityError
 */
export const correlationTest = (r: Ratio, n: number, level: Ratio = 0.95): CorrelationTest => {
  mustLie(where, 'correlation', r, -1, 1, '');
  mustLie(where, 'effective number of pairs', n, 3.000001, 1e12, '');
  mustLie(where, 'level', level, 0.01, 0.999999, '');
  if (Math.abs(r) === 1) return { t: null, p: 0, low: r, high: r };
  const t = r * Math.sqrt((n - 2) / (1 - r * r));
  const half = normalQuantile((1 + level) / 2) / Math.sqrt(n - 3);
  return {
    t,
    p: 2 * studentBelow(-Math.abs(t), n - 2),
    low: Math.tanh(Math.atanh(r) - half),
    high: Math.tanh(Math.atanh(r) + half),
  };
};

export interface SeriesCorrelation extends CorrelationTest {
  readonly r: Ratio;
  /** Autocorrelations at lag 1. */
  readonly xMemory: Ratio;
  readonly yMemory: Ratio;
  /** As printed, and what was used: no more than there are. */
  readonly effective: number;
  readonly used: number;
  /** p as if all pairs were independent. */
  readonly naiveP: Ratio;
}

/**
 * Correlation of two series with memory: as many pairs as they are worth.
 *
 * @param lags up to which autocorrelation counts; 1 takes the formula of the first order (Bretherton et al. 1999, eq. 30)
 * @throws QuantityError, also where the series are worth 3 pairs or fewer: nothing can be said then
 */
export const correlateSeries = (
  x: readonly number[],
  y: readonly number[],
  { level = 0.95, lags = 1 }: { readonly level?: Ratio; readonly lags?: number } = {},
): SeriesCorrelation => {
  const r = pearson(x, y);
  const n = x.length;
  const ofX = autocorrelation(x, lags);
  const ofY = autocorrelation(y, lags);
  const effective = lags === 1 ? effectivePairs(n, ofX[1], ofY[1]) : effectivePairsByLags(n, ofX, ofY);
  const used = capped(effective, n);
  return {
    r,
    xMemory: ofX[1],
    yMemory: ofY[1],
    effective,
    used,
    ...correlationTest(r, used, level),
    naiveP: correlationTest(r, n, level).p,
  };
};
