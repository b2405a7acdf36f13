import { QuantityError } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { preciseDot } from './compensated.ts';
import { mustBeFinite, weightsOf } from './data.ts';
import {
  type Factorised,
  factorise,
  inverseNormal,
  rankOf,
  rotate,
  rotateBack,
  solveLower,
  solveUpper,
  toColumns,
} from './householder.ts';

/**
 * What the standard deviations of the data are taken for: `absolute` as they stand, `scaled` only in their ratios, so that
 * the covariance is multiplied by chi-square over degrees of freedom. The two differ whenever the fit is better or worse
 * than the deviations say; a result without this word is worth little.
 */
export type CovarianceKind = 'scaled' | 'absolute';

export interface LinearFit {
  readonly coefficients: readonly number[];
  readonly sd: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  readonly covarianceKind: CovarianceKind;
  /** Weighted sum of squared residuals; without deviations the plain one. */
  readonly chiSquare: Ratio;
  /** Data less coefficients. */
  readonly degrees: number;
  /** Measured less fitted, not weighted. */
  readonly residuals: readonly number[];
}

export interface LinearFitOptions {
  readonly sd?: readonly number[];
  readonly covariance?: CovarianceKind;
}

const where = 'linear least squares';

const refinements = 4;

/**
 * Solution and residuals made better by the residuals of both r + A x = b and A^T r = 0, which are computed with twice the
 * digits (A. Bjorck 1967, "Iterative refinement of linear least squares solutions I", BIT 7, 257-278).
 */
const refined = (qr: Factorised, matrix: Float64Array, b: Float64Array) => {
  const { rows: m, columns: n } = qr;
  const x = new Float64Array(n);
  const r = new Float64Array(m);
  for (let round = 0; round < refinements; round++) {
    const minusX = x.map((value) => -value);
    const f = new Float64Array(m);
    for (let i = 0; i < m; i++) f[i] = preciseDot(b[i], matrix, i, m, minusX, 0, n) - r[i];
    const g = new Float64Array(n);
    for (let j = 0; j < n; j++) g[j] = -preciseDot(0, matrix, j * m, 1, r, 0, m);
    const z = Float64Array.from({ length: n }, (_, k) => g[qr.order[k]] / qr.lengths[qr.order[k]]);
    solveLower(qr, z);
    rotate(qr, f);
    const step = Float64Array.from({ length: n }, (_, k) => f[k] - z[k]);
    solveUpper(qr, step);
    toColumns(qr, step).forEach((by, j) => {
      x[j] += by;
    });
    f.set(z);
    rotateBack(qr, f);
    for (let i = 0; i < m; i++) r[i] += f[i];
  }
  // below the last digit of the data there is no residual: they lie on the curve
  for (let i = 0; i < m; i++) if (Math.abs(r[i]) < 0.25 * Number.EPSILON * Math.abs(b[i])) r[i] = 0;
  return { x, r };
};

/**
 * Weighted linear least squares: the coefficients b that make the sum of ((y - X b)/sd)^2 least.
 *
 * Householder's QR on columns of length 1, then iterative refinement. Source: C. L. Lawson & R. J. Hanson 1974, "Solving
 * least squares problems" (from memory); covariance (X^T W X)^-1, by R^-1 and not by the normal equations.
 *
 * @param rows one row of X for each of y: [1, x] for a straight line
 * @param sd standard deviations of y; left out, all are alike and unknown, and the covariance has to be scaled
 * @throws QuantityError for rows of unlike length, too few data, columns that depend on each other, bad numbers
 */
export const fitLinear = (
  rows: readonly (readonly number[])[],
  y: readonly number[],
  { sd, covariance = sd === undefined ? 'scaled' : 'absolute' }: LinearFitOptions = {},
): LinearFit => {
  const m = rows.length;
  const n = rows[0]?.length ?? 0;
  if (y.length !== m || rows.some((row) => row.length !== n))
    throw new QuantityError(where, `${m} rows, ${y.length} data`, 'as many, and rows of one length');
  if (n === 0 || m < n || (covariance === 'scaled' && m === n))
    throw new QuantityError(
      where,
      `${m} data for ${n} coefficients`,
      `${n + (covariance === 'scaled' ? 1 : 0)} or more`,
    );
  mustBeFinite(where, 'y', y);
  for (const row of rows) mustBeFinite(where, 'column', row);
  const weights = weightsOf(where, sd, m);
  const matrix = new Float64Array(m * n);
  for (let j = 0; j < n; j++) for (let i = 0; i < m; i++) matrix[j * m + i] = rows[i][j] * weights[i];
  const qr = factorise(matrix, m, n);
  if (rankOf(qr) < n)
    throw new QuantityError(
      where,
      `column ${qr.order[rankOf(qr)] + 1} follows from the others`,
      'independent columns',
    );
  const { x, r } = refined(
    qr,
    matrix,
    Float64Array.from(y, (value, i) => value * weights[i]),
  );
  const chiSquare = preciseDot(0, r, 0, 1, r, 0, m);
  const degrees = m - n;
  const by = covariance === 'scaled' ? chiSquare / degrees : 1;
  const matrixOf = inverseNormal(qr).map((row) => row.map((value) => value * by));
  return {
    coefficients: [...x],
    sd: matrixOf.map((row, k) => Math.sqrt(row[k])),
    covariance: matrixOf,
    covarianceKind: covariance,
    chiSquare,
    degrees,
    residuals: Array.from(r, (value, i) => value / weights[i]),
  };
};
