import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';

const where = 'Bretherton et al. 1999';

const check = (n: number, ...lagged: readonly number[]): void => {
  mustLie(where, 'number of values', n, 4, 1e12, '');
  for (const a of lagged) mustLie(where, 'autocorrelation at lag 1', a, -0.999999, 0.999999, '');
};

/**
 * How many independent pairs two series are worth for their correlation, as printed: n (1 - ab)/(1 + ab). With
 * autocorrelations of unlike sign it is more than n; take `capped` then, nobody measured more than n times.
 *
 * Source: C. S. Bretherton, M. Widmann, V. P. Dymnikov, J. M. Wallace, I. Blade 1999, "The effective number of spatial
 * degrees of freedom of a time-varying field", J. Climate 12, 1990-2009, eq. (30);
 * doi:10.1175/1520-0442(1999)012<1990:TENOSD>2.0.CO;2.
 *
 * @param a autocorrelation of the one series at lag 1, b of the other; -1 and 1 excluded
 * @throws QuantityError
 */
export const effectivePairs = (n: number, a: Ratio, b: Ratio): number => {
  check(n, a, b);
  return (n * (1 - a * b)) / (1 + a * b);
};

/**
 * How many independent values a series is worth for its mean, n (1 - a)/(1 + a): as above, eq. (31), for n many times the
 * persistence.
 *
 * @throws QuantityError
 */
export const effectiveValues = (n: number, a: Ratio): number => {
  check(n, a);
  return (n * (1 - a)) / (1 + a);
};

/**
 * The same without the approximation for large n, for a series of the first order (lag k: a^k): n over
 * 1 + 2 sum (1 - k/n) a^k, the sum in closed form. Source: as `effectivePairsByLags`.
 *
 * @throws QuantityError, also for a number of values that is not whole
 */
export const effectiveValuesExact = (n: number, a: Ratio): number => {
  check(n, a);
  if (!Number.isInteger(n)) throw new QuantityError(where, `${n} values`, 'a whole number');
  return n / ((1 + a) / (1 - a) - (2 * a * (1 - a ** n)) / (n * (1 - a) ** 2));
};

/**
 * How many independent pairs by all lags that are given: n/(1 + 2 sum over k of (1 - k/n) r_k s_k).
 *
 * Source: G. V. Bayley & J. M. Hammersley 1946, "The effective number of independent observations in an autocorrelated time
 * series", J. R. Stat. Soc. Suppl. 8, 184-197 (from memory); Bretherton et al. 1999.
 *
 * @param r autocorrelations of the one series at the lags 0, 1, …; s of the other, as many
 * @throws QuantityError where the sum leaves nothing above 0: fewer lags are needed then
 */
export const effectivePairsByLags = (n: number, r: readonly Ratio[], s: readonly Ratio[]): number => {
  check(n);
  if (r.length !== s.length || r.length < 2 || r.length > n)
    throw new QuantityError(
      where,
      `${r.length} and ${s.length} lags of ${n} values`,
      'as many of both, 2 to n',
    );
  const below = r.reduce((sum, value, k) => (k === 0 ? 1 : sum + 2 * (1 - k / n) * value * s[k]), 1);
  if (!(below > 0))
    throw new QuantityError(where, `the lags up to ${r.length - 1} add up to ${below}`, 'fewer lags');
  return n / below;
};

/** No more than were measured. */
export const capped = (effective: number, n: number): number => Math.min(effective, n);
