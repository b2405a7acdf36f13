import { QuantityError } from '../quantity-error.ts';
import { type InputQuantity, mustBeQuantities, valuesOf } from './propagate.ts';

export interface SecondOrder {
  /** First-order sum of squares and what the second order adds, together. */
  readonly sd: number;
  readonly firstOrderSd: number;
  /** What each pair of quantities adds, as a signed variance: the second order can take away, too. */
  readonly terms: readonly { readonly of: readonly [number, number]; readonly variance: number }[];
}

/**
 * Next terms of the law of propagation, where a formula is not straight over the uncertainties (a product whose other
 * factor is about 0 has no slope at all).
 *
 * Source: JCGM 100:2008 (GUM), 5.1.2, note: sum over i and j of (f_ij^2/2 + f_i f_ijj) u_i^2 u_j^2, for independent
 * quantities whose distributions are symmetric and about normal. Derivatives by differences over half the uncertainties.
 *
 * @throws QuantityError for bad numbers, a formula that has no value beside the quantities, one so bent that the second
 * order is not enough
 */
export const secondOrder = (
  model: (quantities: readonly number[]) => number,
  inputs: readonly InputQuantity[],
): SecondOrder => {
  mustBeQuantities(inputs);
  const at = inputs.map(({ value }) => value);
  const n = inputs.length;
  const h = inputs.map(({ sd }) => sd / 2);
  const value = (...moves: readonly (readonly [k: number, steps: number])[]): number => {
    const there = [...at];
    for (const [k, steps] of moves) there[k] += steps * h[k];
    return valuesOf((x) => [model(x)], there)[0];
  };
  const middle = value();
  /** Differences over h, not divided: derivative times h to its order. */
  const first = inputs.map((_, i) => {
    const near = (value([i, 1]) - value([i, -1])) / 2;
    const far = (value([i, 2]) - value([i, -2])) / 4;
    return near + (near - far) / 3;
  });
  const mixed = (i: number, j: number): number =>
    i === j
      ? value([i, 1]) - 2 * middle + value([i, -1])
      : (value([i, 1], [j, 1]) - value([i, 1], [j, -1]) - value([i, -1], [j, 1]) + value([i, -1], [j, -1])) /
        4;
  const third = (i: number, j: number): number =>
    i === j
      ? (value([i, 2]) - 2 * value([i, 1]) + 2 * value([i, -1]) - value([i, -2])) / 2
      : (value([i, 1], [j, 1]) -
          2 * value([i, 1]) +
          value([i, 1], [j, -1]) -
          value([i, -1], [j, 1]) +
          2 * value([i, -1]) -
          value([i, -1], [j, -1])) /
        2;
  // h is half of u: a product of two derivatives over four steps in all is 1/16 of that over u
  const terms: { of: [number, number]; variance: number }[] = [];
  for (let i = 0; i < n; i++)
    for (let j = i; j < n; j++) {
      const one = 0.5 * mixed(i, j) ** 2 + first[i] * third(i, j);
      const other = i === j ? 0 : 0.5 * mixed(j, i) ** 2 + first[j] * third(j, i);
      terms.push({ of: [i, j], variance: 16 * (one + other) });
    }
  const firstOrder = first.reduce((sum, by) => sum + 4 * by * by, 0);
  const all = terms.reduce((sum, { variance }) => sum + variance, firstOrder);
  if (all < 0)
    throw new QuantityError(
      'second order of the law of propagation',
      `the terms of the second order take away more than there is (${all - firstOrder} of ${firstOrder})`,
      'smaller uncertainties, or the result by drawing',
    );
  return { sd: Math.sqrt(all), firstOrderSd: Math.sqrt(firstOrder), terms };
};
