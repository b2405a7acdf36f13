import { mustLie, QuantityError } from '../quantity-error.ts';
import type { CensoredReading } from './censored.ts';

/** Sum of the values with every limit times a share of itself. */
const sumWith = (readings: readonly CensoredReading[], share: number): number =>
  readings.reduce((sum, { value, below }) => sum + (below ? share * value : value), 0);

const mustBeAny = (where: string, readings: readonly CensoredReading[]): void => {
  if (readings.length === 0) throw new QuantityError(where, 'there are no values', '1 or more');
  for (const { value } of readings) mustLie(where, 'value', value, 0, 1e150, '');
};

/**
 * What is known of sum and mean of values of which some are only known to be below a limit, without any assumption: all
 * of those at zero, all at their limit. Errors of analysis are not in it.
 *
 * Source: arithmetic. A sum of ions, a mean over a year, a flux is never less nor more.
 *
 * @param readings 0 or more each
 * @throws QuantityError
 */
export const censoredBounds = (
  readings: readonly CensoredReading[],
): { readonly sum: readonly [number, number]; readonly mean: readonly [number, number] } => {
  mustBeAny('sum of censored values', readings);
  const sum = [sumWith(readings, 0), sumWith(readings, 1)] as const;
  return { sum, mean: [sum[0] / readings.length, sum[1] / readings.length] };
};

/**
 * Mean with half the limit in place of each censored value. **Do not use**: it is here so that what others computed can
 * be compared. It depends on the laboratory's limits, and invents a pattern that was not measured.
 *
 * Source of the warning: D. R. Helsel 2005, Nondetects and Data Analysis, Wiley (from memory).
 *
 * @throws QuantityError
 */
export const halfLimitMeanDoNotUse = (readings: readonly CensoredReading[]): number => {
  mustBeAny('mean with half the limits', readings);
  return sumWith(readings, 0.5) / readings.length;
};
