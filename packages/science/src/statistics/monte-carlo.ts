import { mustLie, QuantityError } from '../quantity-error.ts';
import { seeded } from '../random/index.ts';
import type { Ratio } from '../units.ts';
import { correlatedNormals, type Distribution, drawer } from './distributions.ts';
import { quantileOfSorted } from './quantiles.ts';

export interface DrawnResult {
  readonly mean: number;
  readonly sd: number;
  /** Interval that leaves as much below as above. */
  readonly low: number;
  readonly high: number;
  /** Shortest interval of the same share. */
  readonly shortest: readonly [low: number, high: number];
  readonly trials: number;
  /** Whether the digits asked for were reached; null where a fixed number of trials was asked for. */
  readonly isStable: boolean | null;
}

export interface DrawOptions {
  readonly seed: number;
  /** Share of the interval. */
  readonly level?: Ratio;
  /** A fixed number of trials; left out, as many as `digits` need. */
  readonly trials?: number;
  /** Significant digits of the standard uncertainty that have to stand still. */
  readonly digits?: 1 | 2 | 3;
  /** Of the quantities, all of which have to be normal where they are correlated (6.4.8); left out, they are independent. */
  readonly correlation?: readonly (readonly number[])[];
}

const where = 'JCGM 101:2008';
/** Trials of one round (7.9.4 b). */
const roundOf = (level: number): number => Math.max(10_000, Math.ceil(100 / (1 - level)));
const MOST_TRIALS = 20_000_000;

/** Of sorted trials (7.7.2 and 7.7.3). */
const intervals = (sorted: Float64Array, level: number) => {
  const width = Math.round(level * sorted.length);
  let best = 0;
  for (let i = 0; i + width < sorted.length; i++)
    if (sorted[i + width] - sorted[i] < sorted[best + width] - sorted[best]) best = i;
  return {
    low: quantileOfSorted(sorted, (1 - level) / 2),
    high: quantileOfSorted(sorted, (1 + level) / 2),
    shortest: [sorted[best], sorted[Math.min(best + width, sorted.length - 1)]] as const,
  };
};

const moments = (values: Float64Array) => {
  const first = values[0];
  let mean = 0;
  for (const value of values) mean += (value - first) / values.length;
  let squares = 0;
  for (const value of values) squares += (value - first - mean) ** 2;
  return { mean: first + mean, sd: Math.sqrt(squares / (values.length - 1)) };
};

/** Half a unit of the last of `digits` significant digits of u (7.9.2). */
const tolerance = (u: number, digits: number): number =>
  0.5 * 10 ** (Math.floor(Math.log10(Number(u.toPrecision(digits)))) - digits + 1);

/**
 * Propagation of distributions by drawing: the formula is worked out for quantities drawn from what is known of each, and
 * the results are taken for what they are.
 *
 * Source: JCGM 101:2008 (GUM, supplement 1), 6.4, 7.4 to 7.7, adaptive procedure 7.9: rounds of 10,000 trials
 * or more until twice
 * the standard deviation of mean, uncertainty and both ends of the interval, over the rounds, is below half a unit of the
 * last digit.
 *
 * @throws QuantityError for bad distributions, a formula without a value at one of the trials
 */
export const propagateByDrawing = (
  model: (quantities: readonly number[]) => number,
  inputs: readonly Distribution[],
  { seed, level = 0.95, trials, digits = 2, correlation }: DrawOptions,
): DrawnResult => {
  mustLie(where, 'level', level, 0.01, 0.999, '');
  if (trials !== undefined) mustLie(where, 'trials', trials, 100, MOST_TRIALS, '');
  const random = seeded(seed);
  const draws = inputs.map((input) => drawer(input, random));
  const together = correlation === undefined ? null : correlatedNormals(inputs, correlation, random);
  const quantities = new Array<number>(inputs.length).fill(0);
  const round = (size: number) => {
    const out = new Float64Array(size);
    for (let i = 0; i < size; i++) {
      if (together !== null) together(quantities);
      else for (let k = 0; k < draws.length; k++) quantities[k] = draws[k]();
      out[i] = model(quantities);
      if (!Number.isFinite(out[i]))
        throw new QuantityError(
          where,
          `the formula is ${out[i]} at ${quantities.join(', ')}`,
          'distributions inside of where it has values',
        );
    }
    return out;
  };
  const all = trials === undefined ? null : round(Math.ceil(trials)).sort();
  if (all !== null) return { ...moments(all), ...intervals(all, level), trials: all.length, isStable: null };
  return untilStable(round, level, digits);
};

const untilStable = (round: (size: number) => Float64Array, level: number, digits: number): DrawnResult => {
  const size = roundOf(level);
  const rounds: Float64Array[] = [];
  // sums and sums of squares of mean, sd, low, high over the rounds, each less that of the first
  const names = ['mean', 'sd', 'low', 'high'] as const;
  let firstOf: Readonly<Record<(typeof names)[number], number>> | null = null;
  const sums = names.map(() => ({ sum: 0, squares: 0 }));
  let isStable = false;
  while (!isStable && (rounds.length + 1) * size <= MOST_TRIALS) {
    const drawn = round(size).sort();
    rounds.push(drawn);
    const of = { ...moments(drawn), ...intervals(drawn, level) };
    firstOf ??= of;
    for (const [k, name] of names.entries()) {
      const by = of[name] - firstOf[name];
      sums[k].sum += by;
      sums[k].squares += by * by;
    }
    const h = rounds.length;
    if (h < 2) continue;
    const allowed = tolerance(firstOf.sd + sums[1].sum / h, digits);
    isStable = sums.every(
      ({ sum, squares }) => 2 * Math.sqrt(Math.max(squares - (sum * sum) / h, 0) / (h * (h - 1))) <= allowed,
    );
  }
  const all = new Float64Array(rounds.length * size);
  rounds.forEach((drawn, k) => {
    all.set(drawn, k * size);
  });
  all.sort();
  return { ...moments(all), ...intervals(all, level), trials: all.length, isStable };
};

/**
 * Whether the first-order result may stand for the drawn one: both ends of its interval within half a unit of the last digit
 * of the uncertainty (JCGM 101:2008, 8.2).
 */
export const firstOrderHolds = (
  value: number,
  expanded: number,
  drawn: Pick<DrawnResult, 'low' | 'high' | 'sd'>,
  digits: 1 | 2 = 2,
): boolean => {
  const allowed = tolerance(drawn.sd, digits);
  return (
    Math.abs(value - expanded - drawn.low) <= allowed && Math.abs(value + expanded - drawn.high) <= allowed
  );
};
