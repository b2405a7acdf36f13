import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { mustBeFinite } from './data.ts';

/**
 * How a quantile lies between two of the sorted data, by the numbers of Hyndman & Fan: 4 share of the data below, 5 half a
 * step off (Hazen), 6 expected share (Weibull), 7 from least to most (what spreadsheets do), 8 nearly free of bias for the
 * median, whatever the distribution, 9 the same for the normal one.
 */
export type QuantileRule = '7' | '4' | '5' | '6' | '8' | '9';

const offsets: Readonly<Record<QuantileRule, readonly [alpha: number, beta: number]>> = {
  '4': [0, 1],
  '5': [0.5, 0.5],
  '6': [0, 0],
  '7': [1, 1],
  '8': [1 / 3, 1 / 3],
  '9': [3 / 8, 3 / 8],
};

/** As `quantile`, of data that were sorted before. */
export const quantileOfSorted = (sorted: ArrayLike<number>, p: Ratio, rule: QuantileRule = '7'): number => {
  const [alpha, beta] = offsets[rule];
  const n = sorted.length;
  const at = Math.min(Math.max(alpha + p * (n + 1 - alpha - beta), 1), n) - 1;
  const below = Math.min(Math.floor(at + 4 * Number.EPSILON * n), n - 1);
  const above = Math.min(below + 1, n - 1);
  const share = Math.max(at - below, 0);
  return sorted[below] + share * (sorted[above] - sorted[below]);
};

/**
 * Value below which the share p of the data lies.
 *
 * Source: R. J. Hyndman & Y. Fan 1996, "Sample quantiles in statistical packages", Am. Stat. 50, 361-365,
 * doi:10.1080/00031305.1996.10473566, eq. (1) and the table after it (from memory).
 *
 * @throws QuantityError for no data, p outside of 0 to 1
 */
export const quantile = (values: readonly number[], p: Ratio, rule: QuantileRule = '7'): number => {
  const where = 'Hyndman & Fan 1996';
  if (values.length === 0) throw new QuantityError(where, 'there are no data', '1 or more');
  mustBeFinite(where, 'value', values);
  mustLie(where, 'share', p, 0, 1, '');
  return quantileOfSorted(Float64Array.from(values).sort(), p, rule);
};
