import type { Metres, Ratio } from '../units.ts';
import { DepthScaleError, type DepthWithError } from './depth.ts';

/** The same horizon seen in two records: an ash layer, a melt layer, a dust band. */
export interface HorizonPair {
  readonly of: DepthWithError;
  readonly on: DepthWithError;
}

export interface OffsetEstimate {
  /** Depth of a horizon in `of` less its depth in `on`. */
  readonly offset: DepthWithError;
  /** Sum of squared standardised residuals over their number less one; 0 for one pair. About 1 where all is well. */
  readonly spread: Ratio;
  /** Pairs that don't fit the others, by index: more than 3 standard deviations from the offset. */
  readonly odd: readonly number[];
}

/** Residuals up to this many standard deviations count in full: 95 % efficiency on normal errors (Huber 1964). */
const HUBER = 1.345;
/** A pair farther off than this many standard deviations is pointed out. */
const ODD = 3;

/**
 * Offset between two records from horizons matched in both.
 *
 * Weighted mean: weights 1/variance. Where the pairs scatter more than their errors say, its standard deviation grows
 * by the square root of `spread` (Birge 1932, Phys. Rev. 40, 207).
 * Robust: Huber's M-estimate, started at the weighted median, so that one wrong match does not pull the others along
 * (Huber 1964, Ann. Math. Stat. 35, 73). Its standard deviation is not let below that of the weighted mean of pairs
 * that fit.
 *
 * @param pairs depths with the errors of finding the horizon; errors of the two depth scales are shared by all pairs
 *   and come on top
 * @throws DepthScaleError for no pairs, or a standard deviation that is not above 0
 */
export const offsetOf = (
  pairs: readonly HorizonPair[],
  method: 'weighted mean' | 'robust' = 'weighted mean',
): OffsetEstimate => {
  if (pairs.length === 0)
    throw new DepthScaleError('An offset needs one matched horizon at least: pick one, or type the offset.');
  const differences = pairs.map(({ of, on }, i) => {
    const value = of.value - on.value;
    const sd = Math.hypot(of.sd, on.sd);
    if (!Number.isFinite(value) || !(sd > 0))
      throw new DepthScaleError(
        `Horizon pair ${i + 1} has a depth that is not a number, or no standard deviation above 0: correct it.`,
      );
    return { value, weight: 1 / (sd * sd), sd };
  });
  const mean = weightedMean(differences);
  const offset = method === 'robust' ? robust(differences) : mean;
  const residuals = differences.map(({ value, sd }) => (value - offset.value) / sd);
  const squares = residuals.reduce((sum, r) => sum + r * r, 0);
  const spread = pairs.length > 1 ? squares / (pairs.length - 1) : 0;
  return {
    offset:
      method === 'robust' ? offset : { value: mean.value, sd: mean.sd * Math.sqrt(Math.max(1, spread)) },
    spread,
    odd: residuals.flatMap((r, i) => (Math.abs(r) > ODD ? [i] : [])),
  };
};

interface Difference extends DepthWithError {
  readonly weight: number;
}

const weightedMean = (differences: readonly Difference[]): DepthWithError => {
  let weights = 0;
  let sum = 0;
  for (const { value, weight } of differences) {
    weights += weight;
    sum += weight * value;
  }
  return { value: sum / weights, sd: 1 / Math.sqrt(weights) };
};

const weightedMedian = (differences: readonly Difference[]): Metres => {
  const sorted = [...differences].sort((a, b) => a.value - b.value);
  const half = sorted.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let sum = 0;
  for (const [i, { value, weight }] of sorted.entries()) {
    sum += weight;
    // exactly half on either side: between the two in the middle
    if (Math.abs(sum - half) < 1e-9 * half) return (value + (sorted[i + 1]?.value ?? value)) / 2;
    if (sum > half) return value;
  }
  return sorted[sorted.length - 1].value;
};

/** Iterated reweighting: each step a weighted mean, residuals beyond HUBER weighed down to it. */
const robust = (differences: readonly Difference[]): DepthWithError => {
  let value = weightedMedian(differences);
  let kept: Difference[] = [];
  for (let step = 0; step < 200; step++) {
    kept = differences.map((one) => {
      const r = Math.abs(one.value - value) / one.sd;
      return { ...one, weight: one.weight * Math.min(1, HUBER / r) };
    });
    const next = weightedMean(kept).value;
    const moved = Math.abs(next - value);
    value = next;
    if (moved < 1e-12) break;
  }
  // sandwich: sum of squared influences over the square of the sum of slopes
  let influence = 0;
  let slope = 0;
  let fitting = 0;
  for (const { value: difference, weight, sd } of differences) {
    const r = (difference - value) / sd;
    const psi = Math.max(-HUBER, Math.min(HUBER, r));
    influence += weight * psi * psi;
    if (Math.abs(r) <= HUBER) slope += weight;
    if (Math.abs(r) <= ODD) fitting += weight;
  }
  const least = fitting > 0 ? 1 / Math.sqrt(fitting) : weightedMean(differences).sd;
  return { value, sd: slope > 0 ? Math.max(least, Math.sqrt(influence) / slope) : least };
};
