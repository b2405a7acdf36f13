import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { mustBeFinite } from './data.ts';
import { quantile } from './quantiles.ts';

/** Stretch of a series about one level. */
interface Stretch {
  /** First value of it, counted from 0. */
  readonly from: number;
  /** The value behind its last one. */
  readonly to: number;
  readonly mean: number;
  /** Standard deviation of the mean, if the values are independent. */
  readonly sd: number;
}

export interface ChangePoints {
  readonly stretches: readonly Stretch[];
  /** Standard deviation of a value about its level: as given, or found from the differences of neighbours. */
  readonly sd: number;
  readonly penalty: Ratio;
}

export interface ChangePointOptions {
  /** Standard deviation of a value about its level; left out, by the median difference of neighbours. */
  readonly sd?: number;
  /** Price of one more stretch, in squared standard deviations; left out, 2 ln n (a place and a level). */
  readonly penalty?: Ratio;
}

const where = 'change points';
/** Median distance of two normal values of the same mean, in standard deviations. */
const MEDIAN_DIFFERENCE = 0.6744897501960817 * Math.SQRT2;

const scatterOf = (values: readonly number[]): number => {
  const apart = values.slice(1).map((value, i) => Math.abs(value - values[i]));
  const sd = quantile(apart, 0.5) / MEDIAN_DIFFERENCE;
  if (!(sd > 0))
    throw new QuantityError(
      where,
      'half of all neighbours are alike: their scatter is 0',
      'a standard deviation of your own',
    );
  return sd;
};

/**
 * Levels of a series that jumps: the stretches that make the sum of squares about their means, plus a price for each, least.
 * The least of all, not the best of some: by optimal partitioning (B. Jackson et al. 2005), with starts left out that can
 * never be the best again (R. Killick, P. Fearnhead, I. A. Eckley 2012, "Optimal detection of changepoints with a linear
 * computational cost", J. Am. Stat. Assoc. 107, 1590-1598, eq. 3). Price: Y.-C. Yao 1988, Stat. Probab. Lett. 6, 181-189. All
 * from memory.
 *
 * @param values in order, independent about their levels: memory looks like jumps (give a larger sd or penalty then)
 * @throws QuantityError for fewer than 4 values, bad numbers, a scatter of 0
 */
export const changePoints = (
  values: readonly number[],
  { sd: given, penalty: asked }: ChangePointOptions = {},
): ChangePoints => {
  const n = values.length;
  if (n < 4) throw new QuantityError(where, `${n} values`, '4 or more');
  mustBeFinite(where, 'value', values);
  const sd = given ?? scatterOf(values);
  mustLie(where, 'standard deviation', sd, Number.MIN_VALUE, Number.MAX_VALUE, '');
  const penalty = asked ?? 2 * Math.log(n);
  mustLie(where, 'penalty', penalty, 0, Number.MAX_VALUE, '');
  // in deviations, from the first value on: a level in common costs no digits
  const sums = new Float64Array(n + 1);
  const squares = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const u = (values[i] - values[0]) / sd;
    sums[i + 1] = sums[i] + u;
    squares[i + 1] = squares[i] + u * u;
  }
  const about = (from: number, to: number) =>
    squares[to] - squares[from] - (sums[to] - sums[from]) ** 2 / (to - from);
  const least = new Float64Array(n + 1);
  least[0] = -penalty;
  const start = new Int32Array(n + 1);
  let starts = [0];
  for (let to = 1; to <= n; to++) {
    least[to] = Number.POSITIVE_INFINITY;
    for (const from of starts) {
      const cost = least[from] + about(from, to) + penalty;
      if (cost < least[to]) [least[to], start[to]] = [cost, from];
    }
    starts = starts.filter((from) => least[from] + about(from, to) <= least[to]);
    starts.push(to);
  }
  const stretches: Stretch[] = [];
  for (let to = n; to > 0; to = start[to]) {
    const from = start[to];
    const mean = values[0] + (sd * (sums[to] - sums[from])) / (to - from);
    stretches.push({ from, to, mean, sd: sd / Math.sqrt(to - from) });
  }
  return { stretches: stretches.reverse(), sd, penalty };
};
