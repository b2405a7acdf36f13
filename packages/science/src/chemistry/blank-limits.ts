import { mustLie, QuantityError } from '../quantity-error.ts';
import { studentQuantile } from '../statistics/student.ts';
import type { Measured } from './measured.ts';

/**
 * How many standard deviations of the blank can be told from it, by name:
 * - `IUPAC`: 3 (G. L. Long, J. D. Winefordner 1983, Anal. Chem. 55, 712A-724A; L. A. Currie 1995, Pure Appl. Chem. 67,
 *   1699; from memory).
 * - `t, 99 %`: the one-sided 99 % quantile of Student's t with n - 1 degrees of freedom (US EPA method detection limit,
 *   40 CFR 136, appendix B; from memory).
 */
export const blankRules = ['IUPAC', 't, 99 %'] as const;
export type BlankRule = (typeof blankRules)[number];

/** In the unit of the blanks. The errors of the limits are those of a standard deviation from n readings. */
export interface BlankLimits {
  readonly mean: number;
  readonly sd: number;
  /** Least content above the blank that is told from none. */
  readonly detection: Measured;
  /** The reading at that content: blank and limit together. */
  readonly reading: number;
  /** Ten standard deviations: content that is known to some 10 %. */
  readonly quantification: Measured;
}

/**
 * Detection and quantification limit from repeated blanks: k s and 10 s above their mean.
 *
 * Source: k as `blankRules` has it; 10 s: Long & Winefordner 1983 (from memory).
 *
 * Errors: u(k s) = k s/sqrt(2 (n - 1)) for normal blanks. Validity: blanks that went through the whole procedure, are
 * normal, and scatter as a sample of little content does; at least 7 are common practice.
 *
 * @param blanks 2 or more, not all alike
 * @throws QuantityError
 */
export const blankLimits = (blanks: readonly number[], rule: BlankRule = 'IUPAC'): BlankLimits => {
  const where = 'limits from blanks';
  const n = blanks.length;
  if (n < 2) throw new QuantityError(where, `there are ${n} blanks`, '2 or more');
  for (const blank of blanks) mustLie(where, 'blank', blank, -Number.MAX_VALUE, Number.MAX_VALUE, '');
  const mean = blanks.reduce((sum, blank) => sum + blank, 0) / n;
  const sd = Math.sqrt(blanks.reduce((sum, blank) => sum + (blank - mean) ** 2, 0) / (n - 1));
  if (!(sd > 1e-12 * Math.abs(mean)))
    throw new QuantityError(where, `all blanks are ${mean}`, 'blanks with more digits, so that they scatter');
  const relative = 1 / Math.sqrt(2 * (n - 1));
  const limit = (factor: number): Measured => ({ value: factor * sd, sd: factor * sd * relative });
  const detection = limit(rule === 'IUPAC' ? 3 : studentQuantile(0.99, n - 1));
  return { mean, sd, detection, reading: mean + detection.value, quantification: limit(10) };
};
