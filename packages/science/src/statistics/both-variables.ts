import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { mustBeFinite } from './data.ts';

export interface LineBothVariables {
  readonly intercept: number;
  readonly slope: number;
  /** By the errors of the data alone; times sqrt(chiSquare/degrees) where the data scatter more than that. */
  readonly interceptSd: number;
  readonly slopeSd: number;
  /** Covariance of intercept and slope. */
  readonly covariance: number;
  /** S: weighted sum of squared distances from the line. */
  readonly chiSquare: Ratio;
  readonly degrees: number;
}

const where = 'York et al. 2004';
const mostSteps = 500;

const sum = (of: (i: number) => number, n: number): number => {
  let total = 0;
  for (let i = 0; i < n; i++) total += of(i);
  return total;
};

const widthOf = (values: readonly number[]): number =>
  values.reduce((most, value) => Math.max(most, Math.abs(value - values[0])), 0);

/** Slope of y on x alone, to begin with. */
const plainSlope = (x: readonly number[], y: readonly number[]): number => {
  const n = x.length;
  const mx = sum((i) => x[i], n) / n;
  const my = sum((i) => y[i], n) / n;
  return sum((i) => (x[i] - mx) * (y[i] - my), n) / sum((i) => (x[i] - mx) ** 2, n);
};

/**
 * Straight line where both x and y have errors, each point its own, and correlated ones.
 *
 * Source: D. York, N. M. Evensen, M. Lopez Martinez, J. De Basabe Delgado 2004, "Unified equations for the slope,
 * intercept, and standard errors of the best straight line", Am. J. Phys. 72, 367-375, doi:10.1119/1.1632486, eqs.
 * (13a) to (13d). Symbols as there: W, alpha, beta, x-bar.
 *
 * @param xSd standard deviations, above 0
 * @param correlation of the errors of x and y of each point, between -1 and 1; left out, none
 * @throws QuantityError for bad numbers, fewer than 3 points, all x alike, no end of the steps (a vertical line)
 */
export const lineBothVariables = (
  x: readonly number[],
  y: readonly number[],
  xSd: readonly number[],
  ySd: readonly number[],
  correlation: readonly number[] = x.map(() => 0),
): LineBothVariables => {
  const n = x.length;
  if ([y, xSd, ySd, correlation].some((list) => list.length !== n) || n < 3)
    throw new QuantityError(
      where,
      `${n} x, ${y.length} y, ${xSd.length} and ${ySd.length} errors`,
      '3 or more of each',
    );
  mustBeFinite(where, 'x', x);
  mustBeFinite(where, 'y', y);
  for (let i = 0; i < n; i++) {
    mustLie(where, `error of x ${i + 1}`, xSd[i], 1e-150, 1e150, '');
    mustLie(where, `error of y ${i + 1}`, ySd[i], 1e-150, 1e150, '');
    mustLie(where, `correlation ${i + 1}`, correlation[i], -0.999999, 0.999999, '');
  }
  const weights = (b: number) =>
    x.map((_, i) => 1 / (ySd[i] ** 2 + b * b * xSd[i] ** 2 - 2 * b * correlation[i] * xSd[i] * ySd[i]));
  const parts = (b: number) => {
    const w = weights(b);
    const all = sum((i) => w[i], n);
    const mx = sum((i) => w[i] * x[i], n) / all;
    const my = sum((i) => w[i] * y[i], n) / all;
    const beta = x.map((_, i) => {
      const u = x[i] - mx;
      const v = y[i] - my;
      return w[i] * (u * ySd[i] ** 2 + b * v * xSd[i] ** 2 - (b * u + v) * correlation[i] * xSd[i] * ySd[i]);
    });
    return { w, all, mx, my, beta };
  };
  let slope = plainSlope(x, y);
  // of the size of a slope at all: one that is 0 but for rounding would never stand still by its own size
  const steep = widthOf(y) / widthOf(x);
  for (let step = 0, moved = Number.POSITIVE_INFINITY, isStill = false; !isStill; step++) {
    const { w, mx, my, beta } = parts(slope);
    const next = sum((i) => w[i] * beta[i] * (y[i] - my), n) / sum((i) => w[i] * beta[i] * (x[i] - mx), n);
    if (step === mostSteps || !Number.isFinite(next))
      throw new QuantityError(
        where,
        `no slope found after ${step} steps`,
        'x that differ, a line that is not upright',
      );
    const by = Math.abs(next - slope) / (Math.abs(next) + steep);
    // rounding sets the end where the steps get no shorter
    isStill = by <= 1e-15 || (by <= 1e-11 && by >= moved);
    moved = by;
    slope = next;
  }
  const { w, all, mx, my, beta } = parts(slope);
  const intercept = my - slope * mx;
  const adjusted = beta.map((by) => mx + by);
  const centre = sum((i) => w[i] * adjusted[i], n) / all;
  const slopeVariance = 1 / sum((i) => w[i] * (adjusted[i] - centre) ** 2, n);
  return {
    intercept,
    slope,
    interceptSd: Math.sqrt(1 / all + centre ** 2 * slopeVariance),
    slopeSd: Math.sqrt(slopeVariance),
    covariance: -centre * slopeVariance,
    chiSquare: sum((i) => w[i] * (y[i] - slope * x[i] - intercept) ** 2, n),
    degrees: n - 2,
  };
};
