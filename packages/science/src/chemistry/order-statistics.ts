import { QuantityError } from '../quantity-error.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { type CensoredReading, mustBeCensored } from './censored.ts';

export interface OrderStatisticsFit {
  /** ln x = intercept + slope z of the detected values, z normal quantiles of their plotting positions. */
  readonly intercept: number;
  readonly slope: number;
  /** Of detected values and of those that the line puts in place of the others. */
  readonly mean: number;
  readonly sd: number;
  readonly median: number;
  /** Plotting position and value, detected and modelled, from the least up. */
  readonly positions: readonly { readonly below: boolean; readonly share: number; readonly value: number }[];
}

const where = 'regression on order statistics';

/**
 * Plotting positions with several limits: P(X >= limit_j) from the top down,
 * e_j = e_(j+1) + A_j/(A_j + B_j) (1 - e_(j+1)), A_j detected from limit_j to the next, B_j all below limit_j. Detected
 * values spread evenly over their stretch, censored ones of a limit over 0 to 1 - e_j.
 */
const plottingPositions = (readings: readonly CensoredReading[]) => {
  const sorted = (below: boolean): number[] =>
    readings.flatMap((reading) => (reading.below === below ? [reading.value] : [])).toSorted((a, b) => a - b);
  const [detected, censored] = [sorted(false), sorted(true)];
  const limits = [...new Set([0, ...censored])];
  const positions: { below: boolean; share: number; value: number }[] = [];
  // one pass down through all: what is left of the detected and the censored ones lies below the limit
  let [above, d, c] = [0, detected.length, censored.length];
  for (let j = limits.length - 1; j >= 0; j -= 1) {
    const limit = limits[j] ?? 0;
    const first = lowerBound(detected, limit, d);
    const within = d - first;
    const firstCensored = lowerBound(censored, limit, c);
    const equal = c - firstCensored;
    const exceed = limit === 0 ? 1 : above + (within / (within + first + c)) * (1 - above);
    for (let rank = 1; rank <= within; rank += 1) {
      const share = 1 - exceed + (rank / (within + 1)) * (exceed - above);
      positions.push({ below: false, share, value: detected[first + rank - 1] ?? 0 });
    }
    for (let rank = 1; rank <= equal; rank += 1)
      positions.push({ below: true, share: ((1 - exceed) * rank) / (equal + 1), value: limit });
    [above, d, c] = [exceed, first, firstCensored];
  }
  return positions;
};

/** Index of the first of the sorted values before `end` that is not below `limit`. */
const lowerBound = (values: readonly number[], limit: number, end: number): number => {
  let first = end;
  while (first > 0 && (values[first - 1] ?? 0) >= limit) first -= 1;
  return first;
};

/**
 * Mean, standard deviation and median of a lognormal population of which some values are only known to lie below limits:
 * a line through logarithms of the detected values over normal quantiles, used only for the censored ones ("robust").
 *
 * Source: D. R. Helsel, T. A. Cohn 1988, Water Resour. Res. 24, 1997-2004; positions by R. M. Hirsch, J. R. Stedinger
 * 1987, Water Resour. Res. 23, 715-727 (from memory). Validity: up to 80 % censored, about lognormal, 3 or more
 * different values detected. No closed error of the mean was published; that of `censoredLikelihood` serves.
 *
 * @throws QuantityError above 80 % censored, for fewer values, for values that are not above zero
 */
export const orderStatistics = (readings: readonly CensoredReading[]): OrderStatisticsFit => {
  mustBeCensored(where, readings, 3);
  const share = readings.filter(({ below }) => below).length / readings.length;
  if (share > 0.8) throw new QuantityError(where, `${(100 * share).toFixed(1)} % are censored`, 'up to 80 %');
  const positions = plottingPositions(readings).map((at) => ({ ...at, z: normalQuantile(at.share) }));
  const detected = positions.filter(({ below }) => !below);
  const meanZ = detected.reduce((sum, { z }) => sum + z, 0) / detected.length;
  const meanLog = detected.reduce((sum, { value }) => sum + Math.log(value), 0) / detected.length;
  const square = detected.reduce((sum, { z }) => sum + (z - meanZ) ** 2, 0);
  const slope = detected.reduce((sum, { z, value }) => sum + (z - meanZ) * Math.log(value), 0) / square;
  const intercept = meanLog - slope * meanZ;
  const all = positions
    .map(({ z, ...at }) => ({ ...at, value: at.below ? Math.exp(intercept + slope * z) : at.value }))
    .toSorted((a, b) => a.value - b.value);
  const n = all.length;
  const mean = all.reduce((sum, { value }) => sum + value, 0) / n;
  const sd = Math.sqrt(all.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / (n - 1));
  const median = ((all[Math.floor((n - 1) / 2)]?.value ?? 0) + (all[Math.floor(n / 2)]?.value ?? 0)) / 2;
  return { intercept, slope, mean, sd, median, positions: all };
};
