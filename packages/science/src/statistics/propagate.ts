import { mustLie, QuantityError } from '../quantity-error.ts';
import { mustBeFinite } from './data.ts';

/** A quantity that goes into a formula. */
export interface InputQuantity {
  readonly value: number;
  /** Standard uncertainty; 0 where it is known. */
  readonly sd: number;
  /** Degrees of freedom of that uncertainty; left out, it is taken for known. */
  readonly degrees?: number;
}

/** Several results of several quantities. */
export type Model = (quantities: readonly number[]) => readonly number[];

export interface Propagated {
  readonly values: readonly number[];
  readonly sd: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly correlation: readonly (readonly number[])[];
  /** Result by result: sensitivity coefficient of each quantity. */
  readonly sensitivities: readonly (readonly number[])[];
  /** Result by result: |c| u of each quantity. */
  readonly parts: readonly (readonly number[])[];
  /** Effective degrees of freedom by Welch and Satterthwaite; null where quantities are correlated (it has no such form). */
  readonly degrees: readonly (number | null)[];
}

const where = 'propagation of uncertainty';

export const mustBeQuantities = (inputs: readonly InputQuantity[]): void => {
  mustBeFinite(
    where,
    'quantity',
    inputs.map(({ value }) => value),
  );
  inputs.forEach(({ sd, degrees }, i) => {
    mustLie(where, `uncertainty of quantity ${i + 1}`, sd, 0, Number.MAX_VALUE, '');
    if (degrees !== undefined && degrees !== Number.POSITIVE_INFINITY)
      mustLie(where, `degrees of freedom of quantity ${i + 1}`, degrees, 0.5, Number.MAX_VALUE, '');
  });
};

/** @throws QuantityError unless it is a square of n with ones on the diagonal, symmetric, and between -1 and 1 */
export const mustBeCorrelation = (correlation: readonly (readonly number[])[], n: number): void => {
  const isGood =
    correlation.length === n &&
    correlation.every(
      (row, i) =>
        row.length === n &&
        row.every((r, j) => Math.abs(r) <= 1 && r === correlation[j][i] && (i !== j || r === 1)),
    );
  if (!isGood)
    throw new QuantityError(
      where,
      'the correlations are no such matrix',
      `${n} by ${n}, symmetric, 1 on the diagonal`,
    );
};

/** Values that the formula must have around the quantities. */
export const valuesOf = (model: Model, quantities: readonly number[]): readonly number[] => {
  const values = model(quantities);
  mustBeFinite(where, `at ${quantities.join(', ')}: result`, values);
  return values;
};

/** Slopes by one quantity: central differences over h and h/2, from both of which the error in h^2 is taken out. */
const slopesBy = (model: Model, at: readonly number[], k: number, h: number): number[] => {
  const beside = (by: number) =>
    valuesOf(
      model,
      at.map((value, i) => (i === k ? value + by : value)),
    );
  const difference = (step: number) => {
    const low = beside(-step);
    return beside(step).map((high, r) => (high - low[r]) / (2 * step));
  };
  const coarse = difference(h);
  return difference(h / 2).map((fine, r) => fine + (fine - coarse[r]) / 3);
};

/**
 * Law of propagation of uncertainty, first order, for one or several results.
 *
 * Source: JCGM 100:2008 (GUM), eq. (10), with correlations (13) and (F.1); several results JCGM 102:2011, 6.2; effective
 * degrees of freedom (G.2b). Sensitivities by differences over an eighth of the uncertainty (5.1.3, note 2, takes all of
 * it).
 *
 * @param correlation of the quantities; left out, they are independent
 * @throws QuantityError for bad numbers, a formula that has no value beside the quantities
 */
export const propagate = (
  model: Model,
  inputs: readonly InputQuantity[],
  correlation?: readonly (readonly number[])[],
): Propagated => {
  mustBeQuantities(inputs);
  if (correlation !== undefined) mustBeCorrelation(correlation, inputs.length);
  const at = inputs.map(({ value }) => value);
  const values = valuesOf(model, at);
  const byQuantity = inputs.map(({ sd }, k) =>
    sd === 0 ? values.map(() => 0) : slopesBy(model, at, k, sd / 8),
  );
  const sensitivities = values.map((_, r) => byQuantity.map((slopes) => slopes[r]));
  const signed = sensitivities.map((row) => row.map((c, k) => c * inputs[k].sd));
  const product = (a: readonly number[], b: readonly number[]) => {
    let sum = 0;
    for (let i = 0; i < a.length; i++)
      if (correlation === undefined) sum += a[i] * b[i];
      else for (let j = 0; j < b.length; j++) sum += a[i] * correlation[i][j] * b[j];
    return sum;
  };
  const covariance = signed.map((a) => signed.map((b) => product(a, b)));
  const sd = covariance.map((row, r) => Math.sqrt(Math.max(row[r], 0)));
  const isCorrelated = correlation?.some((row, i) => row.some((r, j) => i !== j && r !== 0)) ?? false;
  return {
    values,
    sd,
    covariance,
    correlation: covariance.map((row, i) => row.map((c, j) => (i === j ? 1 : c / (sd[i] * sd[j])))),
    sensitivities,
    parts: signed.map((row) => row.map(Math.abs)),
    degrees: signed.map((row, r) => {
      if (isCorrelated) return null;
      const below = row.reduce((sum, part, k) => sum + part ** 4 / (inputs[k].degrees ?? Infinity), 0);
      return below === 0 ? Number.POSITIVE_INFINITY : sd[r] ** 4 / below;
    }),
  };
};
