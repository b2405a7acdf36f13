import { QuantityError } from '../quantity-error.ts';
import type { Permil } from '../units.ts';
import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';
import { referenceDelta } from './reference-waters.ts';

/** A reference water: what it is agreed to be and what the instrument made of it, permil. */
export interface ScaleAnchor {
  readonly agreed: Measured<Permil>;
  readonly measured: Measured<Permil>;
}

/** Covariances of what was measured, permil squared: drift, memory. */
export interface ScaleCovariances {
  readonly sampleUpper?: number;
  readonly sampleLower?: number;
  readonly upperLower?: number;
}

/** Names under which reference waters were agreed: the first waters, exact by definition, and those that replaced them. */
export const waterScales = ['VSMOW-SLAP', 'VSMOW2-SLAP2'] as const;
export type WaterScale = (typeof waterScales)[number];

/** Agreed deltas of the two waters of a scale. */
export const agreedDeltas = (
  isotope: '2H' | '18O',
  scale: WaterScale = 'VSMOW-SLAP',
): { readonly upper: Measured<Permil>; readonly lower: Measured<Permil> } => {
  const [upper, lower] =
    scale === 'VSMOW-SLAP' ? (['VSMOW', 'SLAP'] as const) : (['VSMOW2', 'SLAP2'] as const);
  return { upper: referenceDelta(upper, isotope), lower: referenceDelta(lower, isotope) };
};

/**
 * Delta on the scale that two reference waters fix: a line through both,
 * delta = a_1 + (m - m_1)(a_2 - a_1)/(m_2 - m_1); with a_1 = 0 it is delta_SLAP (m - m_V)/(m_S - m_V).
 *
 * Source: R. Gonfiantini 1978, Nature 271, 534-536; IUPAC 1993 (both from memory). Errors by JCGM 100:2008, eq. (13), of
 * all five numbers. Validity: a linear instrument; best between the two waters.
 *
 * @returns with `share`: 0 at the upper water, 1 at the lower, outside of that the line is extrapolated
 * @throws QuantityError where both waters read the same, for what is not finite, a covariance that cannot be
 */
export const twoPointScale = (
  sample: Measured<Permil>,
  upper: ScaleAnchor,
  lower: ScaleAnchor,
  { sampleUpper = 0, sampleLower = 0, upperLower = 0 }: ScaleCovariances = {},
): Measured<Permil> & { readonly share: number } => {
  const where = 'two-point scale';
  const [unit, low, high] = ['[ppth]', -1000, 1e5] as const;
  mustBeMeasured(where, 'sample', sample, unit, low, high);
  mustBeMeasured(where, 'upper water, measured', upper.measured, unit, low, high);
  mustBeMeasured(where, 'lower water, measured', lower.measured, unit, low, high);
  mustBeMeasured(where, 'upper water, agreed', upper.agreed, unit, low, high);
  mustBeMeasured(where, 'lower water, agreed', lower.agreed, unit, low, high);
  mustBeCovariance(where, sampleUpper, sample, upper.measured);
  mustBeCovariance(where, sampleLower, sample, lower.measured);
  mustBeCovariance(where, upperLower, upper.measured, lower.measured);
  const apart = lower.measured.value - upper.measured.value;
  if (apart === 0)
    throw new QuantityError(where, `both waters read ${upper.measured.value}`, 'two different readings');
  const share = (sample.value - upper.measured.value) / apart;
  const stretch = (lower.agreed.value - upper.agreed.value) / apart;
  const [ofSample, ofUpper, ofLower] = [stretch, -stretch * (1 - share), -stretch * share];
  const variance =
    (ofSample * sample.sd) ** 2 +
    (ofUpper * upper.measured.sd) ** 2 +
    (ofLower * lower.measured.sd) ** 2 +
    ((1 - share) * upper.agreed.sd) ** 2 +
    (share * lower.agreed.sd) ** 2 +
    2 *
      (ofSample * ofUpper * sampleUpper + ofSample * ofLower * sampleLower + ofUpper * ofLower * upperLower);
  return {
    value: upper.agreed.value + share * (lower.agreed.value - upper.agreed.value),
    sd: rootOf(variance),
    share,
  };
};
