import { mustLie } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';

export interface BlockLength {
  /** Before it is rounded. */
  readonly exact: number;
  /** Nearest whole number, at least 1 and at most half of the series. */
  readonly rounded: number;
}

/**
 * How long the blocks of a moving-block bootstrap should be: (6^(1/2) a/(1 - a^2))^(2/3) n^(1/3), rounded.
 *
 * Source: E. Carlstein 1986, Ann. Stat. 14, 1171-1179, as M. Mudelsee 2014, "Climate time series analysis", 2nd ed., eq.
 * (3.28) writes it; both from memory.
 *
 * @param a autocorrelation at lag 1, 0 or more: of one series, or of two the root of their product
 * @throws QuantityError
 */
export const blockLength = (n: number, a: Ratio): BlockLength => {
  const where = 'block length';
  mustLie(where, 'number of values', n, 4, 1e12, '');
  mustLie(where, 'autocorrelation at lag 1', a, 0, 0.999999, '');
  const exact = ((Math.sqrt(6) * a) / (1 - a * a)) ** (2 / 3) * Math.cbrt(n);
  return { exact, rounded: Math.min(Math.max(Math.round(exact), 1), Math.floor(n / 2)) };
};
