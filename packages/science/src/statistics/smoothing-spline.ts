import { mustLie, QuantityError } from '../quantity-error.ts';
import { weightsOf } from './data.ts';
import { hermite, type KnotCurve, mustBeKnots } from './hermite.ts';

export interface SmoothingSpline extends KnotCurve {
  /** Smoothed values at the data. */
  readonly values: readonly number[];
  /** Their standard deviations: sigma times the root of the share that a value has in its own smoothed one. */
  readonly sd: readonly number[];
  /** How many parameters the curve is worth: sum of those shares, between 2 and the number of data. */
  readonly degrees: number;
  /** Standard deviation of data of weight 1 about the curve: 1 where the deviations given are right. */
  readonly sigma: number;
  readonly penalty: number;
}

export interface SmoothingOptions {
  /** Standard deviations of y; left out, all are alike and unknown. */
  readonly sd?: readonly number[];
  /** Price of bending: 0 goes through all data (the natural spline), a large one is a straight line; left out, by GCV. */
  readonly penalty?: number;
}

const where = 'smoothing spline';

/** Q^T (second differences) and R (its Gram matrix), after Green & Silverman: three and two diagonals each. */
const bands = (x: readonly number[]) => {
  const n = x.length;
  const h = x.slice(1).map((value, i) => value - x[i]);
  const inner = n - 2;
  const q = Array.from(
    { length: inner },
    (_, j) => [1 / h[j], -1 / h[j] - 1 / h[j + 1], 1 / h[j + 1]] as const,
  );
  const r = Array.from({ length: inner }, (_, j) => [(h[j] + h[j + 1]) / 3, h[j + 1] / 6] as const);
  return { h, q, r };
};

/**
 * L D L^T of the pentadiagonal R + penalty Q^T W^-1 Q, the solution for Q^T y, and the three central diagonals of its inverse
 * (M. F. Hutchinson & F. R. de Hoog 1985, Numer. Math. 47, 99-106).
 */
const solveBands = (
  q: readonly (readonly [number, number, number])[],
  r: readonly (readonly [number, number])[],
  variances: Float64Array,
  penalty: number,
  right: Float64Array,
) => {
  const m = q.length;
  const [d, one, two] = [new Float64Array(m), new Float64Array(m), new Float64Array(m)];
  const gram = (j: number, k: number) => {
    let sum = 0;
    for (let i = k; i <= j + 2; i++) sum += q[j][i - j] * q[k][i - k] * variances[i];
    return penalty * sum;
  };
  const z = right.slice();
  for (let j = 0; j < m; j++) {
    const before = j > 0 ? d[j - 1] * one[j - 1] ** 2 : 0;
    const twoBefore = j > 1 ? d[j - 2] * two[j - 2] ** 2 : 0;
    d[j] = r[j][0] + gram(j, j) - before - twoBefore;
    if (j + 1 < m)
      one[j] = (r[j][1] + gram(j, j + 1) - (j > 0 ? d[j - 1] * one[j - 1] * two[j - 1] : 0)) / d[j];
    if (j + 2 < m) two[j] = gram(j, j + 2) / d[j];
    z[j] -= (j > 0 ? one[j - 1] * z[j - 1] : 0) + (j > 1 ? two[j - 2] * z[j - 2] : 0);
  }
  const [b0, b1, b2] = [new Float64Array(m), new Float64Array(m), new Float64Array(m)];
  for (let j = m - 1; j >= 0; j--) {
    z[j] = z[j] / d[j] - (j + 1 < m ? one[j] * z[j + 1] : 0) - (j + 2 < m ? two[j] * z[j + 2] : 0);
    const [p, s] = [j + 1 < m ? one[j] : 0, j + 2 < m ? two[j] : 0];
    const [next, after] = [j + 1 < m ? b0[j + 1] : 0, j + 2 < m ? b0[j + 2] : 0];
    const between = j + 2 < m ? b1[j + 1] : 0;
    b1[j] = -p * next - s * between;
    b2[j] = -p * between - s * after;
    b0[j] = 1 / d[j] - p * b1[j] - s * b2[j];
  }
  return { bend: z, inverse: [b0, b1, b2] as const };
};

/**
 * Smooth curve near data with errors: the sum of ((y - f)/sd)^2 plus `penalty` times the integral of f''^2 is least.
 *
 * Source: C. H. Reinsch 1967, "Smoothing by spline functions", Numer. Math. 10, 177-183; P. J. Green & B. W. Silverman 1994,
 * "Nonparametric regression and generalized linear models", section 2.3; penalty by generalised cross-validation P. Craven &
 * G. Wahba 1979, Numer. Math. 31, 377-403; errors G. Wahba 1983, J. R. Stat. Soc. B 45, 133-150. All from memory. Time and
 * memory go with the number of data.
 *
 * @param x rising, 4 or more
 * @throws QuantityError
 */
export const smoothingSpline = (
  x: readonly number[],
  y: readonly number[],
  { sd, penalty: asked }: SmoothingOptions = {},
): SmoothingSpline => {
  mustBeKnots(where, x, y, 4);
  if (asked !== undefined) mustLie(where, 'penalty', asked, 0, 1e300, '');
  const n = x.length;
  const variances = weightsOf(where, sd, n).map((root) => 1 / root ** 2);
  const { h, q, r } = bands(x);
  const right = Float64Array.from(q, ([a, b, c], j) => a * y[j] + b * y[j + 1] + c * y[j + 2]);
  const at = (penalty: number) => {
    const { bend, inverse } = solveBands(q, r, variances, penalty, right);
    const values = new Array<number>(n);
    const shares = new Array<number>(n);
    let squares = 0;
    for (let i = 0; i < n; i++) {
      let pull = 0;
      let own = 0;
      for (let j = Math.max(0, i - 2); j <= Math.min(i, n - 3); j++) {
        pull += q[j][i - j] * bend[j];
        for (let k = Math.max(0, i - 2); k <= Math.min(i, n - 3); k++)
          own += q[j][i - j] * q[k][i - k] * inverse[Math.abs(j - k)][Math.min(j, k)];
      }
      values[i] = y[i] - penalty * variances[i] * pull;
      shares[i] = 1 - penalty * variances[i] * own;
      squares += (y[i] - values[i]) ** 2 / variances[i];
    }
    const degrees = shares.reduce((sum, share) => sum + share, 0);
    return { penalty, bend, values, shares, squares, degrees, gcv: (n * squares) / (n - degrees) ** 2 };
  };
  const best = asked === undefined ? leastGcv(at, (x[n - 1] - x[0]) ** 3 / n) : at(asked);
  const left = n - best.degrees;
  const sigma = left > 1e-9 * n ? Math.sqrt(best.squares / left) : 0;
  const error = sd === undefined ? sigma : 1;
  const second = (i: number): number => (i === 0 || i === n - 1 ? 0 : best.bend[i - 1]);
  const slopes = best.values.map((value, i) =>
    i < n - 1
      ? (best.values[i + 1] - value) / h[i] - (h[i] * (2 * second(i) + second(i + 1))) / 6
      : (value - best.values[i - 1]) / h[i - 1] + (h[i - 1] * (second(i - 1) + 2 * second(i))) / 6,
  );
  return {
    ...hermite(where, x, best.values, slopes),
    values: best.values,
    sd: best.shares.map((share, i) => error * Math.sqrt(Math.max(share, 0) * variances[i])),
    degrees: best.degrees,
    sigma,
    penalty: best.penalty,
  };
};

/** Least of generalised cross-validation over 16 powers of ten of the penalty, then by golden section between neighbours. */
const leastGcv = <Fit extends { readonly gcv: number; readonly degrees: number; readonly penalty: number }>(
  at: (penalty: number) => Fit,
  scale: number,
): Fit => {
  const tries = Array.from({ length: 65 }, (_, k) => at(scale * 10 ** (k / 4 - 10)));
  const usable = tries.filter(({ gcv }) => Number.isFinite(gcv));
  if (usable.length === 0)
    throw new QuantityError(where, 'no penalty suits the data', 'a penalty of your own');
  const first = usable.reduce((a, b) => (b.gcv < a.gcv ? b : a));
  let low = Math.log(first.penalty) - Math.LN10 / 4;
  let high = Math.log(first.penalty) + Math.LN10 / 4;
  const golden = (Math.sqrt(5) - 1) / 2;
  let best = first;
  for (let step = 0; step < 60 && high - low > 1e-9; step++) {
    const [a, b] = [high - golden * (high - low), low + golden * (high - low)];
    const [left, right] = [at(Math.exp(a)), at(Math.exp(b))];
    if (left.gcv <= right.gcv) high = b;
    else low = a;
    const nearer = left.gcv <= right.gcv ? left : right;
    if (nearer.gcv <= best.gcv) best = nearer;
  }
  return best;
};

/**
 * Natural cubic spline through all data: the smoothing spline of penalty 0. Smooth, but free to bulge: for depths and ages
 * take `monotoneSpline`.
 *
 * Source: J. H. Ahlberg, E. N. Nilson, J. L. Walsh 1967, "The theory of splines and their applications" (from memory).
 */
export const naturalSpline = (x: readonly number[], y: readonly number[]): KnotCurve => {
  const { at, slopeAt, atAll } = smoothingSpline(x, y, { penalty: 0 });
  return { at, slopeAt, atAll };
};
