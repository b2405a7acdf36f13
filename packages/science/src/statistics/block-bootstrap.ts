import { mustLie, QuantityError } from '../quantity-error.ts';
import { seeded } from '../random/index.ts';
import type { Ratio } from '../units.ts';
import { autocorrelation } from './autocorrelation.ts';
import { blockLength } from './block-length.ts';
import { pearson } from './correlation.ts';
import { mustBeFinite } from './data.ts';
import { normalBelow, normalQuantile } from './normal.ts';
import { quantileOfSorted } from './quantiles.ts';
import { studentQuantile } from './student.ts';

type Interval = readonly [low: Ratio, high: Ratio];

export interface BootstrapCorrelation {
  readonly r: Ratio;
  readonly blockLength: number;
  readonly resamples: number;
  /**
   * Fisher's z with ends moved so far that, drawn from the resamples again, they hold as often as they should: the one to
   * report.
   */
  readonly calibrated: Interval;
  /** Bias corrected and accelerated. */
  readonly bca: Interval;
  /** Fisher's z with the spread of the resamples and Student's t of n - 2 degrees. */
  readonly studentT: Interval;
  /** Quantiles of the resamples as they are. */
  readonly percentile: Interval;
  /** Mean of the resamples' z less that of the data. */
  readonly bias: Ratio;
}

export interface BootstrapOptions {
  readonly seed: number;
  readonly level?: Ratio;
  readonly resamples?: number;
  /** Left out: by the memory of both series (`blockLength` of the root of the product of their autocorrelations). */
  readonly blockLength?: number;
}

const where = 'moving-block bootstrap';
/** Resamples of each resample, for the spread of its own z. */
const INNER = 200;

const chosenLength = (x: readonly number[], y: readonly number[]): number => {
  const memory = autocorrelation(x, 1)[1] * autocorrelation(y, 1)[1];
  return blockLength(x.length, Math.sqrt(Math.max(memory, 0))).rounded;
};

/** Sums over a series from its start, so that r of any stretch needs no second pass; deviations from the first value. */
const sumsOf = (x: readonly number[], y: readonly number[]) => {
  const n = x.length;
  const sums = [0, 1, 2, 3, 4].map(() => new Float64Array(n + 1));
  for (let i = 0; i < n; i++) {
    const u = x[i] - x[0];
    const v = y[i] - y[0];
    [u, v, u * u, u * v, v * v].forEach((value, k) => {
      sums[k][i + 1] = sums[k][i] + value;
    });
  }
  return sums;
};

const correlationOf = (n: number, [u, v, uu, uv, vv]: readonly number[]): number =>
  (uv - (u * v) / n) / Math.sqrt((uu - (u * u) / n) * (vv - (v * v) / n));

/** Draws blocks of neighbouring pairs until there are as many pairs as before; `out` gets the sums of what was drawn. */
const drawBlocks = (
  sums: readonly Float64Array[],
  length: number,
  uniform: () => number,
  out: readonly Float64Array[],
): void => {
  const n = sums[0].length - 1;
  for (let at = 0; at < n; at += length) {
    const from = Math.floor(uniform() * (n - length + 1));
    const size = Math.min(length, n - at);
    for (let k = 0; k < sums.length; k++)
      for (let i = 1; i <= size; i++) out[k][at + i] = out[k][at] + (sums[k][from + i] - sums[k][from]);
  }
};

/** As `drawBlocks`, for the correlation alone: only the ends of the blocks are looked at. */
const totalOfBlocks = (sums: readonly Float64Array[], length: number, uniform: () => number): number => {
  const n = sums[0].length - 1;
  let [u, v, uu, uv, vv] = [0, 0, 0, 0, 0];
  for (let left = n; left > 0; left -= length) {
    const from = Math.floor(uniform() * (n - length + 1));
    const to = from + Math.min(length, left);
    u += sums[0][to] - sums[0][from];
    v += sums[1][to] - sums[1][from];
    uu += sums[2][to] - sums[2][from];
    uv += sums[3][to] - sums[3][from];
    vv += sums[4][to] - sums[4][from];
  }
  return finite(correlationOf(n, [u, v, uu, uv, vv]));
};

const resampledR = (sums: readonly Float64Array[]): number => {
  const n = sums[0].length - 1;
  return finite(
    correlationOf(
      n,
      sums.map((sum) => sum[n]),
    ),
  );
};

/** A resample of one value has no correlation. */
const finite = (r: number): number => (Number.isFinite(r) ? r : 0);

const spreadOf = (z: Float64Array): { readonly mean: number; readonly sd: number } => {
  let mean = 0;
  for (const value of z) mean += value / z.length;
  let squares = 0;
  for (const value of z) squares += (value - mean) ** 2;
  return { mean, sd: Math.sqrt(squares / (z.length - 1)) };
};

/** r limited so that its z is finite: a resample may hold one stretch only. */
const zOf = (r: number): number => Math.atanh(Math.min(Math.max(r, -1 + 1e-12), 1 - 1e-12));

/** Skewness of r when one pair at a time is left out (B. Efron 1987, eq. 6.6, by the jackknife). */
const acceleration = (sums: readonly Float64Array[], n: number): number => {
  const all = sums.map((sum) => sum[n]);
  const left = Array.from({ length: n }, (_, i) =>
    correlationOf(
      n - 1,
      all.map((total, k) => total - (sums[k][i + 1] - sums[k][i])),
    ),
  );
  const mean = left.reduce((a, b) => a + b, 0) / n;
  const cubes = left.reduce((sum, r) => sum + (mean - r) ** 3, 0);
  const squares = left.reduce((sum, r) => sum + (mean - r) ** 2, 0);
  return squares === 0 ? 0 : cubes / (6 * squares ** 1.5);
};

/**
 * Interval of the correlation of two series with memory, whatever their distributions: blocks of neighbouring pairs are drawn
 * again and again, so that both the memory within a block and the pairing stay.
 *
 * Source: M. Mudelsee 2003, "Estimating Pearson's correlation coefficient with bootstrap confidence interval from serially
 * dependent time series", Math. Geol. 35, 651-665, doi:10.1023/B:MATG.0000002982.52104.02; blocks H. R. Kunsch 1989, Ann.
 * Stat. 17, 1217-1241; calibration K. B. Olafsdottir & M. Mudelsee 2014, "More accurate, calibrated bootstrap confidence
 * intervals for estimating the correlation between two time series", Math. Geosci. 46, 411-427; BCa B. Efron 1987, J. Am.
 * Stat. Assoc. 82, 171-185. All from memory.
 *
 * @param x at even steps, in order; y of the same steps
 * @throws QuantityError for unlike lengths, fewer than 10 pairs, a series that doesn't change
 */
export const bootstrapCorrelation = (
  x: readonly number[],
  y: readonly number[],
  { seed, level = 0.95, resamples = 2000, blockLength: asked }: BootstrapOptions,
): BootstrapCorrelation => {
  const n = x.length;
  const r = pearson(x, y);
  if (n < 10) throw new QuantityError(where, `${n} pairs`, '10 or more');
  mustBeFinite(where, 'seed', [seed]);
  mustLie(where, 'level', level, 0.5, 0.999, '');
  mustLie(where, 'resamples', resamples, 100, 1e6, '');
  const length = asked ?? chosenLength(x, y);
  mustLie(where, 'block length', length, 1, n / 2, '');
  if (!Number.isInteger(length))
    throw new QuantityError(where, `block length is ${length}`, 'a whole number');
  const sums = sumsOf(x, y);
  const { uniform } = seeded(seed);
  const drawn = new Float64Array(Math.round(resamples));
  const shares = new Float64Array(drawn.length);
  const again = sums.map((sum) => new Float64Array(sum.length));
  const inner = new Float64Array(INNER);
  for (let b = 0; b < drawn.length; b++) {
    drawBlocks(sums, length, uniform, again);
    drawn[b] = resampledR(again);
    for (let c = 0; c < INNER; c++) inner[c] = zOf(totalOfBlocks(again, length, uniform));
    shares[b] = (zOf(drawn[b]) - zOf(r)) / spreadOf(inner).sd;
  }
  const { mean: meanZ, sd: sdZ } = spreadOf(drawn.map(zOf));
  drawn.sort();
  shares.sort();
  const t = studentQuantile((1 + level) / 2, n - 2);
  return {
    r,
    blockLength: length,
    resamples: drawn.length,
    calibrated: [
      Math.tanh(zOf(r) - quantileOfSorted(shares, (1 + level) / 2) * sdZ),
      Math.tanh(zOf(r) - quantileOfSorted(shares, (1 - level) / 2) * sdZ),
    ],
    bca: corrected(drawn, r, acceleration(sums, n), level),
    studentT: [Math.tanh(zOf(r) - t * sdZ), Math.tanh(zOf(r) + t * sdZ)],
    percentile: [quantileOfSorted(drawn, (1 - level) / 2), quantileOfSorted(drawn, (1 + level) / 2)],
    bias: meanZ - zOf(r),
  };
};

/** Quantiles moved by the bias z0 and the acceleration a (Efron 1987, eq. 2.3). */
const corrected = (sorted: Float64Array, r: number, a: number, level: number): Interval => {
  let below = 0;
  for (const value of sorted) below += value < r ? 1 : value === r ? 0.5 : 0;
  const share = Math.min(Math.max(below / sorted.length, 0.5 / sorted.length), 1 - 0.5 / sorted.length);
  const z0 = normalQuantile(share);
  const at = (p: number) => {
    const z = z0 + normalQuantile(p);
    return quantileOfSorted(sorted, normalBelow(z0 + z / (1 - a * z)));
  };
  return [at((1 - level) / 2), at((1 + level) / 2)];
};
