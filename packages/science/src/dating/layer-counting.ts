import { QuantityError } from '../quantity-error.ts';
import type { Years } from '../units.ts';

/**
 * What a standard uncertainty of a count is, by name:
 * - `half the MCE`: a quarter year for each uncertain layer, so that the maximum counting error is two standard deviations
 *   (Andersen et al. 2006, Quat. Sci. Rev. 25, 3246; as public files citing it quote).
 * - `the MCE`: "can be regarded as 1 sigma" (Svensson et al. 2008, Clim. Past 4, 47-57, doi:10.5194/cp-4-47-2008,
 *   abstract).
 * - `independent layers`: half the square root of their number, as if each were tossed for itself (binomial
 *   distribution). Smaller, since a counter's habits are then taken to average out; not the convention.
 */
export const countingConventions = ['half the MCE', 'the MCE', 'independent layers'] as const;
export type CountingConvention = (typeof countingConventions)[number];

export interface CountedAge {
  readonly age: Years;
  /** Maximum counting error: half a year for each uncertain layer. */
  readonly mce: Years;
  readonly sd: Years;
  readonly convention: CountingConvention;
}

/**
 * Age of a stretch by its annual layers: a certain layer is one year, an uncertain one 0.5 +- 0.5.
 * Age N + U/2, maximum counting error U/2.
 *
 * Source: K. K. Andersen et al. 2006, Quat. Sci. Rev. 25, 3246, doi:10.1016/j.quascirev.2006.08.002 (abstract; doi from
 * memory).
 *
 * Validity: errors of seeing a layer or not. A year that left no layer, or ice that is missing, is not in it.
 *
 * @param certain how many layers nobody doubts
 * @param uncertain how many may be one or none
 * @throws QuantityError for a number below 0
 */
export const countedAge = (
  certain: number,
  uncertain: number,
  convention: CountingConvention = 'half the MCE',
): CountedAge => {
  for (const [name, count] of Object.entries({ certain, uncertain }))
    if (!(count >= 0 && count <= 1e7))
      throw new QuantityError('layer counting', `${name} layers are ${count}`, '0 to 10,000,000');
  const mce = uncertain / 2;
  return { age: certain + mce, mce, sd: sdOf(uncertain, convention), convention };
};

const sdOf = (uncertain: number, convention: CountingConvention): Years => {
  switch (convention) {
    case 'half the MCE':
      return uncertain / 4;
    case 'the MCE':
      return uncertain / 2;
    case 'independent layers':
      return Math.sqrt(uncertain) / 2;
  }
};
