import { QuantityError } from '../quantity-error.ts';
import { mustBeFinite, weightsOf } from './data.ts';
import {
  type Factorised,
  factorise,
  inverseNormal,
  rankOf,
  rotate,
  solveUpper,
  toColumns,
} from './householder.ts';
import type { LinearFit, LinearFitOptions } from './linear-fit.ts';

/** A formula with parameters b, and its slopes by them. */
export interface Curve {
  readonly value: (b: readonly number[], x: number) => number;
  /** Writes the derivative by each parameter into `out`. */
  readonly slopes: (b: readonly number[], x: number, out: Float64Array) => void;
}

export interface NonlinearFit extends LinearFit {
  /** Steps that were tried, accepted or not. */
  readonly steps: number;
}

const where = 'nonlinear least squares';
const mostSteps = 5000;
/** A step that changes no parameter by more than this share of its length is the last. */
const still = 1e-11;
/** Bend over step that is still taken (Transtrum & Sethna 2012). */
const mostBend = 0.75;

const sumOfSquares = (r: Float64Array): number => {
  let sum = 0;
  for (const value of r) sum += value * value;
  return sum;
};

/** QR of J with `damping` times the scale of each parameter below it. */
const damped = (jacobian: Float64Array, m: number, scale: Float64Array, damping: number): Factorised => {
  const n = scale.length;
  const rows = m + n;
  const stacked = new Float64Array(rows * n);
  const root = Math.sqrt(damping);
  for (let j = 0; j < n; j++) {
    stacked.set(jacobian.subarray(j * m, (j + 1) * m), j * rows);
    stacked[j * rows + m + j] = root * scale[j];
  }
  return factorise(stacked, rows, n);
};

/** The step that fits `right` best; and the squares that it takes away, were the curve straight. */
const stepOf = (qr: Factorised, right: Float64Array): { step: number[]; taken: number } => {
  const v = new Float64Array(qr.rows);
  v.set(right);
  rotate(qr, v);
  const taken = sumOfSquares(v.subarray(0, qr.columns));
  solveUpper(qr, v);
  return { step: toColumns(qr, v), taken };
};

/**
 * Weighted nonlinear least squares by Levenberg 1944 and Marquardt 1963, each step by QR of the Jacobian with the damping
 * below it, parameters scaled by the longest columns so far (J. J. More 1978, "The Levenberg-Marquardt algorithm:
 * implementation and theory", Lecture Notes in Mathematics 630, 105-116), damping as in K. Madsen, H. B. Nielsen, O.
 * Tingleff 2004, "Methods for non-linear least squares problems", eq. (2.21); each step bent by the curve's second
 * derivative along it, and refused where the bend is no longer small (M. K. Transtrum & J. P. Sethna 2012,
 * arXiv:1201.5885): without that a bold first step can end where a parameter no longer counts. All from memory.
 *
 * The covariance is that of the tangent at the end, by QR of the analytic slopes: valid where the curve is nearly straight
 * over a few standard deviations of its parameters.
 *
 * @param start where to begin; the least that is found is the one downhill of it
 * @throws QuantityError for a start where the curve has no value, too few data, no convergence, parameters that the data
 * can't tell apart
 */
export const fitNonlinear = (
  curve: Curve,
  x: readonly number[],
  y: readonly number[],
  start: readonly number[],
  { sd, covariance = sd === undefined ? 'scaled' : 'absolute' }: LinearFitOptions = {},
): NonlinearFit => {
  const m = x.length;
  const n = start.length;
  if (y.length !== m)
    throw new QuantityError(where, `${m} x, ${y.length} y`, 'as many of one as of the other');
  if (n === 0 || m <= n)
    throw new QuantityError(where, `${m} data for ${n} parameters`, `1 parameter or more, more data`);
  mustBeFinite(where, 'x', x);
  mustBeFinite(where, 'y', y);
  mustBeFinite(where, 'start', start);
  const weights = weightsOf(where, sd, m);
  const residualsAt = (b: readonly number[]) =>
    Float64Array.from(x, (at, i) => (y[i] - curve.value(b, at)) * weights[i]);
  const slopes = new Float64Array(n);
  const jacobianAt = (b: readonly number[]) => {
    const out = new Float64Array(m * n);
    for (let i = 0; i < m; i++) {
      curve.slopes(b, x[i], slopes);
      for (let j = 0; j < n; j++) out[j * m + i] = slopes[j] * weights[i];
    }
    mustBeFinite(where, 'slope', out);
    return out;
  };

  let b = [...start];
  let r = residualsAt(b);
  let squares = sumOfSquares(r);
  if (!Number.isFinite(squares))
    throw new QuantityError(
      where,
      `the curve has no value at the start ${start.join(', ')}`,
      'another start',
    );
  let jacobian = jacobianAt(b);
  const scale = new Float64Array(n);
  const widen = () => {
    for (let j = 0; j < n; j++)
      scale[j] = Math.max(scale[j], Math.sqrt(sumOfSquares(jacobian.subarray(j * m, (j + 1) * m))));
    for (let j = 0; j < n; j++) if (scale[j] === 0) scale[j] = 1;
  };
  widen();
  const lengthOf = (step: readonly number[]) => Math.hypot(...step.map((by, j) => by * scale[j]));
  /** Second derivative of the curve along a step, from its change over a tenth of it; none where it has no value there. */
  const bendAlong = (step: readonly number[]): Float64Array => {
    const h = 0.1;
    const there = residualsAt(b.map((value, j) => value + h * step[j]));
    const out = there.map((value, i) => {
      let straight = 0;
      for (let j = 0; j < n; j++) straight += jacobian[j * m + i] * step[j];
      return (2 / h) * ((value - r[i]) / h + straight);
    });
    return out.every(Number.isFinite) ? out : new Float64Array(m);
  };
  let damping = 1e-3;
  let growth = 2;
  let steps = 0;
  for (let isDone = false; !isDone; steps++) {
    if (steps === mostSteps)
      throw new QuantityError(
        where,
        `no end after ${mostSteps} steps from ${start.join(', ')}`,
        'another start',
      );
    const qr = damped(jacobian, m, scale, damping);
    const { step: first, taken } = stepOf(qr, r);
    const bend = stepOf(qr, bendAlong(first)).step;
    const step = first.map((by, j) => by + 0.5 * bend[j]);
    const next = b.map((value, j) => value + step[j]);
    const size = lengthOf(first);
    const foreseen = taken + damping * size ** 2;
    isDone = size <= still * lengthOf(b) || foreseen <= 1e-30 * squares;
    const after = residualsAt(next);
    const squaresAfter = sumOfSquares(after);
    if (squaresAfter <= squares && (isDone || 2 * lengthOf(bend) <= mostBend * size)) {
      const gain = (squares - squaresAfter) / foreseen;
      [b, r, squares] = [next, after, squaresAfter];
      jacobian = jacobianAt(b);
      widen();
      damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3);
      growth = 2;
    } else {
      damping *= growth;
      growth *= 2;
    }
  }
  const qr = factorise(jacobian, m, n);
  if (rankOf(qr) < n)
    throw new QuantityError(
      where,
      `the data say nothing of parameter ${qr.order[rankOf(qr)] + 1}`,
      'fewer parameters',
    );
  const degrees = m - n;
  const by = covariance === 'scaled' ? squares / degrees : 1;
  const matrix = inverseNormal(qr).map((row) => row.map((value) => value * by));
  return {
    coefficients: b,
    sd: matrix.map((row, k) => Math.sqrt(row[k])),
    covariance: matrix,
    covarianceKind: covariance,
    chiSquare: squares,
    degrees,
    residuals: Array.from(r, (value, i) => value / weights[i]),
    steps,
  };
};
