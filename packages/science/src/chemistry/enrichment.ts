import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';

/**
 * Enrichment factor of an element against a source: (X/R) of the sample over (X/R) of the source, R an element that has
 * no other source (Al, Ba, Ce for dust; Na for sea salt).
 *
 * Source: W. H. Zoller, E. S. Gladney, R. A. Duce 1974, Science 183, 198-200, doi:10.1126/science.183.4121.198 (from
 * memory); ratios from `crustRatio` or `seaSaltRatio`. Errors by JCGM 100:2008, eq. (13). Validity: factors within some 10
 * are common practice (no source) for "not enriched", since the real dust is not the mean crust.
 *
 * @param element and `reference` in one unit
 * @param ratio of the source, g/g
 * @param covariance of element and reference, unit squared
 * @throws QuantityError for a reference or ratio that is not above zero, what is not finite
 */
export const enrichmentFactor = (
  element: Measured,
  reference: Measured,
  ratio: Measured,
  covariance = 0,
): Measured => {
  const where = 'enrichment factor';
  mustBeMeasured(where, 'element', element);
  mustBeMeasured(where, 'reference element', reference, '', Number.MIN_VALUE);
  mustBeMeasured(where, 'ratio of the source', ratio, 'g/g', Number.MIN_VALUE);
  mustBeCovariance(where, covariance, element, reference);
  const value = element.value / reference.value / ratio.value;
  const slope = 1 / (reference.value * ratio.value);
  const variance =
    (slope * element.sd) ** 2 +
    (value * (reference.sd / reference.value)) ** 2 +
    (value * (ratio.sd / ratio.value)) ** 2 -
    2 * slope * (value / reference.value) * covariance;
  return { value, sd: rootOf(variance) };
};
