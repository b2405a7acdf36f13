import { mustLie } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';

/**
 * Time in which the memory of a series of the first order falls to 1/e: -step/ln a.
 *
 * Source: M. Mudelsee 2014, "Climate time series analysis", 2nd ed., section 2.1 (from memory).
 *
 * @param a autocorrelation from one value to the next, above 0 and below 1: without memory there is no such time
 * @param step between values, in any unit of time or depth; the result is in the same
 * @throws QuantityError
 */
export const persistenceTime = (a: Ratio, step = 1): number => {
  mustLie('persistence time', 'autocorrelation at lag 1', a, 1e-12, 1 - 1e-12, '');
  mustLie('persistence time', 'step', step, Number.MIN_VALUE, Number.MAX_VALUE, '');
  return -step / Math.log(a);
};
