import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';

/**
 * What of an ion did not come with sea salt: nss X = X - k Na; and the sea-salt part k Na.
 *
 * Source: subtraction by a tracer of sea water, whose ratio k is an argument (`seaSaltRatio`). Errors by JCGM 100:2008,
 * eq. (13): u^2 = u_X^2 + (k u_Na)^2 + (Na u_k)^2 - 2 k cov(X, Na).
 *
 * A part below zero is kept: cutting it off at zero would bias every mean. Validity: k is that of the salt which fell
 * (with `mirabilite lost` instead of sea water more is left), and the tracer has no other source; with dust use
 * `seaSaltAndDust`.
 *
 * @param ion and `tracer` in one unit, in which `ratio` is too
 * @param covariance of ion and tracer, unit squared
 * @throws QuantityError for what is not finite, a ratio below zero, a covariance that cannot be
 */
export const nonSeaSalt = (
  ion: Measured,
  tracer: Measured,
  ratio: Measured,
  covariance = 0,
): { readonly nonSeaSalt: Measured; readonly seaSalt: Measured } => {
  const where = 'non-sea-salt part';
  mustBeMeasured(where, 'ion', ion);
  mustBeMeasured(where, 'tracer', tracer);
  mustBeMeasured(where, 'ratio', ratio, '', 0);
  mustBeCovariance(where, covariance, ion, tracer);
  const ofSalt = (ratio.value * tracer.sd) ** 2 + (tracer.value * ratio.sd) ** 2;
  const seaSalt = ratio.value * tracer.value;
  return {
    nonSeaSalt: {
      value: ion.value - seaSalt,
      sd: rootOf(ion.sd ** 2 + ofSalt - 2 * ratio.value * covariance),
    },
    seaSalt: { value: seaSalt, sd: Math.sqrt(ofSalt) },
  };
};

/**
 * nss X of a whole series; `out` is filled and may be `ion` itself.
 *
 * @param ratio a number that does not change along the series
 */
export const nonSeaSaltAll = (
  ion: Float64Array,
  tracer: Float64Array,
  ratio: number,
  out: Float64Array,
): void => {
  for (let i = 0; i < out.length; i += 1) out[i] = (ion[i] ?? Number.NaN) - ratio * (tracer[i] ?? Number.NaN);
};
