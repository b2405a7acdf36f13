import { mustLie, QuantityError } from '../quantity-error.ts';
import { mustBeFinite } from './data.ts';

/** A curve through knots: value and slope anywhere between the first and the last; outside nothing is said. */
export interface KnotCurve {
  /** @throws QuantityError outside of the knots */
  readonly at: (x: number) => number;
  readonly slopeAt: (x: number) => number;
  /** Many at once, without allocation. */
  readonly atAll: (x: Float64Array, out: Float64Array) => void;
}

/** @throws QuantityError for too few knots, x that don't rise, bad numbers */
export const mustBeKnots = (
  where: string,
  x: readonly number[],
  y: readonly number[],
  fewest: number,
): void => {
  if (x.length !== y.length || x.length < fewest)
    throw new QuantityError(where, `${x.length} x, ${y.length} y`, `as many of both, ${fewest} or more`);
  mustBeFinite(where, 'x', x);
  mustBeFinite(where, 'y', y);
  for (let i = 1; i < x.length; i++)
    if (!(x[i] > x[i - 1]))
      throw new QuantityError(where, `x ${i + 1} is ${x[i]} after ${x[i - 1]}`, 'x that rise');
};

/** Interval that x lies in; begun from the one before, which is the same or the next where x rises. */
const intervalOf = (knots: readonly number[], x: number, before: number): number => {
  const last = knots.length - 2;
  if (x >= knots[before] && x <= knots[before + 1]) return before;
  if (before < last && x > knots[before + 1] && x <= knots[before + 2]) return before + 1;
  let low = 0;
  let high = last;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (knots[middle] <= x) low = middle;
    else high = middle - 1;
  }
  return low;
};

/** Cubics with these values and slopes at the knots (Hermite's form). */
export const hermite = (
  where: string,
  x: readonly number[],
  y: readonly number[],
  slopes: readonly number[],
): KnotCurve => {
  const inside = (value: number, before: number): number => {
    mustLie(where, 'x', value, x[0], x[x.length - 1], '');
    return intervalOf(x, value, before);
  };
  const valueIn = (i: number, value: number): number => {
    const h = x[i + 1] - x[i];
    const t = (value - x[i]) / h;
    const rise = (y[i + 1] - y[i]) / h;
    return (
      y[i] +
      h *
        t *
        (slopes[i] +
          t * (3 * rise - 2 * slopes[i] - slopes[i + 1] + t * (slopes[i] + slopes[i + 1] - 2 * rise)))
    );
  };
  return {
    at: (value) => valueIn(inside(value, 0), value),
    slopeAt: (value) => {
      const i = inside(value, 0);
      const h = x[i + 1] - x[i];
      const t = (value - x[i]) / h;
      const rise = (y[i + 1] - y[i]) / h;
      return (
        slopes[i] +
        t * (2 * (3 * rise - 2 * slopes[i] - slopes[i + 1]) + 3 * t * (slopes[i] + slopes[i + 1] - 2 * rise))
      );
    },
    atAll: (values, out) => {
      let i = 0;
      for (let k = 0; k < values.length; k++) {
        i = inside(values[k], i);
        out[k] = valueIn(i, values[k]);
      }
    },
  };
};
