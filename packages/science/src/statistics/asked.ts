import { QuantityError } from '../quantity-error.ts';
import type { NumbersTaken } from '../relations/relation.ts';
import { numberTaken } from '../relations/relation.ts';

/** Sums of powers of them stay within what a machine holds. */
export const anyNumber = [-1e50, 1e50] as const;

/** Numbers of any unit: the result is in the units that they were given in. */
export const list = (symbol: string, what: string): NumbersTaken => ({
  kind: 'numbers',
  symbol,
  what,
  unit: '1',
  range: anyNumber,
  because: 'what a machine holds',
});
export const deviations = (symbol: string, what: string): NumbersTaken => ({
  kind: 'numbers',
  symbol,
  what,
  unit: '1',
  range: [0, 1e50],
  because: 'by definition',
});
/** One deviation for all, or one for each. */
export const spread = (name: string, sd: readonly number[], n: number): readonly number[] => {
  if (sd.length === 1) return new Array<number>(n).fill(sd[0]);
  if (sd.length === n) return sd;
  throw new QuantityError(name, `${sd.length} standard deviations for ${n} data`, `1 or ${n}`);
};

export const level = {
  ...numberTaken(
    'p',
    'share between the ends of the interval',
    '1',
    [0.5, 0.999],
    'usual levels of confidence',
  ),
  usual: 0.95,
};
export const lagOne = (symbol: string, what: string) =>
  ({
    kind: 'number',
    symbol,
    what,
    unit: '1',
    range: [-0.999999, 0.999999],
    because: 'by definition, the ends excluded',
  }) as const;
export const count = numberTaken('n', 'number of values', '1', [4, 1e9], 'fewer say nothing of memory');
export const seed = {
  ...numberTaken(
    'seed',
    'seed of the draws: the same one gives the same result',
    '1',
    [0, 2147483647],
    'whole numbers of 31 bits',
  ),
  usual: 1,
};
export const covarianceKind = {
  kind: 'choice',
  symbol: 'C',
  what: 'absolute: the deviations as they stand; scaled: times chi-square over degrees of freedom',
  options: ['absolute', 'scaled'],
} as const;
export const correlationOf = { symbol: 'r', what: 'correlation', unit: '1' } as const;
