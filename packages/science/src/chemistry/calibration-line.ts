import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Measured } from './measured.ts';

/**
 * Where the scatter about the line is taken from:
 * - `residuals`: from the standards themselves; stated deviations, where given, only weigh.
 * - `stated`: the stated standard deviations as they are.
 */
export const scatterSources = ['residuals', 'stated'] as const;
export type ScatterSource = (typeof scatterSources)[number];

/** Readings of standards. */
export interface Standards {
  readonly contents: readonly number[];
  readonly readings: readonly number[];
  /** Standard deviations of the readings; left out where all are alike and not known. */
  readonly sds?: readonly number[];
}

/** reading = intercept + slope content. */
export interface CalibrationLine {
  readonly intercept: Measured;
  readonly slope: Measured;
  readonly covariance: number;
  /** Standard deviation of a reading of weight 1 about the line. */
  readonly scatter: number;
  /** n - 2; Infinity where the scatter was stated. */
  readonly degreesOfFreedom: number;
  readonly count: number;
  /** Weighted means, and the weighted sum of squares of contents about theirs. */
  readonly meanContent: number;
  readonly meanReading: number;
  readonly spread: number;
  /** Weight of a reading of standard deviation 1: null where the line is not weighted. */
  readonly weightOfOne: number | null;
  readonly range: readonly [number, number];
}

/**
 * Least-squares line through the readings of standards, weighted by 1/sd^2 where deviations are stated (weights of mean
 * 1, so that the scatter stays in the unit of the readings).
 *
 * Source: J. C. Miller, J. N. Miller, Statistics and Chemometrics for Analytical Chemistry, chapter on calibration (from
 * memory); ISO 11843-2 has the same line. Validity: standards' contents free of error beside the readings' scatter
 * (else a fit with errors in both), readings independent, a straight response.
 *
 * @param standards 3 or more, of at least two contents
 * @throws QuantityError
 */
export const calibrationLine = (
  { contents, readings, sds }: Standards,
  scatterFrom: ScatterSource = 'residuals',
): CalibrationLine => {
  const where = 'calibration line';
  const n = contents.length;
  if (n < 3 || readings.length !== n || (sds !== undefined && sds.length !== n))
    throw new QuantityError(
      where,
      `there are ${n} contents, ${readings.length} readings, ${sds?.length ?? 'no'} deviations`,
      'as many of each, 3 or more',
    );
  if (scatterFrom === 'stated' && sds === undefined)
    throw new QuantityError(where, 'no deviation is stated', 'a standard deviation of each reading');
  for (const x of [...contents, ...readings]) mustLie(where, 'number', x, -1e150, 1e150, '');
  for (const sd of sds ?? []) mustLie(where, 'standard deviation', sd, 1e-150, 1e150, '');
  const mean = (of: (i: number) => number): number => contents.reduce((sum, _, i) => sum + of(i), 0) / n;
  const plain = (i: number): number => 1 / (sds?.[i] ?? 1) ** 2;
  const meanPlain = mean(plain);
  const w = (i: number): number => plain(i) / meanPlain;
  const [x, y] = [(i: number) => contents[i] ?? 0, (i: number) => readings[i] ?? 0];
  const meanContent = mean((i) => w(i) * x(i));
  const meanReading = mean((i) => w(i) * y(i));
  const spread = n * mean((i) => w(i) * (x(i) - meanContent) ** 2);
  if (!(spread > 0))
    throw new QuantityError(where, `all contents are ${contents[0]}`, 'two or more contents');
  const slope = (n * mean((i) => w(i) * (x(i) - meanContent) * (y(i) - meanReading))) / spread;
  const squares = n * mean((i) => w(i) * (y(i) - meanReading - slope * (x(i) - meanContent)) ** 2);
  const variance = scatterFrom === 'stated' ? 1 / meanPlain : squares / (n - 2);
  return {
    intercept: {
      value: meanReading - slope * meanContent,
      sd: Math.sqrt(variance * (1 / n + meanContent ** 2 / spread)),
    },
    slope: { value: slope, sd: Math.sqrt(variance / spread) },
    covariance: (-variance * meanContent) / spread,
    scatter: Math.sqrt(variance),
    degreesOfFreedom: scatterFrom === 'stated' ? Number.POSITIVE_INFINITY : n - 2,
    count: n,
    meanContent,
    meanReading,
    spread,
    weightOfOne: sds === undefined ? null : 1 / meanPlain,
    range: [Math.min(...contents), Math.max(...contents)],
  };
};
