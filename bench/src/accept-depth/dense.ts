/**
 * The peer of the acceptance test: the model of docs/method/depth.md as one dense weighted least-squares problem,
 * where every one-sided term (fill, stub, ground and unsure gap) is replaced by the mean and variance of its prior:
 * the best that a general-purpose linear adjustment can do with these readings. It knows no inequalities, so the
 * barrel's length says nothing to it. Imports nothing of the solver but the assumptions' numbers. Metres.
 */
import type { DepthAssumptions, DepthReadings } from '@firnbook/science/depth';
import { factorise, solveWith } from './cholesky.ts';
import { observeCore, type Part } from './dense-core.ts';
import { observeCounter } from './dense-counter.ts';
import { smallestSeen } from './detectable.ts';
import { type Equation, equations, type Shift } from './equations.ts';
import { moments } from './moments.ts';

export interface DenseSolution {
  /** Bottom of the hole after each run. */
  readonly hole: readonly number[];
  /** By piece id. */
  readonly top: ReadonlyMap<string, number>;
  readonly bottom: ReadonlyMap<string, number>;
  /** Smallest bias that is seen, metres; `shifts` says by how much each reading moves when the bias is 1 m. */
  readonly detectable: (shifts: readonly Shift[]) => number;
}

const SURFACE_SD = 0.0005;

export const solveDense = (readings: DepthReadings, a: DepthAssumptions): DenseSolution => {
  const e = equations();
  const surface = e.known(0, SURFACE_SD ** 2);
  const hole = readings.runs.map(() => e.unknown());
  const m = moments(a);
  observeCounter(e, readings, a, m, { surface, hole });
  const ways = observeCore(e, readings, a, m, { surface, hole });
  const { matrix, right } = normalEquations(e.list, e.size());
  const factor = factorise(matrix, e.size());
  const x = solveWith(factor, right);
  const top = new Map<string, number>();
  const bottom = new Map<string, number>();
  for (const { from, to, parts } of ways) {
    // what is left over of a way is shared in proportion to variance
    const value = (part: Part) => part.terms.reduce((sum, [place, y]) => sum + y * x[place], part.fixed);
    const over = x[to] - x[from] - parts.reduce((sum, part) => sum + value(part), 0);
    const all = parts.reduce((sum, part) => sum + part.variance, 0);
    let at = x[from];
    for (const part of parts) {
      at += value(part) + (over * part.variance) / all;
      (part.isGap ? top : bottom).set(part.piece, at);
    }
  }
  return {
    hole: hole.map((place) => x[place]),
    top,
    bottom,
    detectable: (shifts) => smallestSeen(factor, e.list, shifts),
  };
};

/** Normal matrix and right side of equations that are independent of each other. */
export const normalEquations = (list: readonly Equation[], size: number) => {
  const matrix = new Float64Array(size * size);
  const right = new Float64Array(size);
  for (const { terms, value, sd } of list) {
    const weight = 1 / sd ** 2;
    for (const [i, x] of terms) {
      for (const [j, y] of terms) matrix[i * size + j] += weight * x * y;
      right[i] += weight * x * value;
    }
  }
  return { matrix, right };
};
