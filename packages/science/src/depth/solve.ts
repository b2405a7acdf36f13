import { type DepthAssumptions, defaultAssumptions } from './assumptions.ts';
import { type Bounds, bounds } from './bounds.ts';
import { Global } from './global.ts';
import { makeJob } from './model.ts';
import { order } from './order.ts';
import { type Positions, positions } from './positions.ts';
import type { DepthReadings } from './readings.ts';
import { remarks } from './remarks.ts';
import { type Snooped, snoop } from './snooping.ts';
import type { DepthSolution, Estimate } from './solution.ts';
import { levelSd, tolerances } from './tolerances.ts';

/** Changes when the same readings and assumptions may give other numbers. */
export const SOLVER = 'depth 4';

/**
 * All readings of one hole adjusted together.
 *
 * @param readings runs in the order of the work, pieces in the order in which they came up; metres
 * @param assumptions what is taken for granted; metres and ratios
 * @returns posterior mean and standard deviation of every depth, what the constraints allow (`min`, `max`, widened
 *   to hold the mean where the readings contradict each other), what doesn't fit, what was learned
 * @throws DepthInputError for a number that isn't one, a name used twice, a reading that refers to what isn't there
 */
export const solveDepths = (
  readings: DepthReadings,
  assumptions: DepthAssumptions = defaultAssumptions,
): DepthSolution => adjustDepths(readings, assumptions).solution;

/** The adjusted depths with what joint draws of them are made from, see `jointDraws`. */
export interface DepthPosterior {
  readonly solution: DepthSolution;
  /** The adjusted chain; not for keeping. */
  readonly snooped: Snooped;
  /** Pieces as the solution lists them, by their place in the chain. */
  readonly listed: Int32Array;
}

/** As `solveDepths`, with what joint draws are made from. */
export const adjustDepths = (
  readings: DepthReadings,
  assumptions: DepthAssumptions = defaultAssumptions,
): DepthPosterior => {
  const snooped = snoop(makeJob(order(readings), assumptions, tolerances));
  const listed = asLogged(snooped);
  return { solution: report(snooped, listed), snooped, listed };
};

/** Pieces run by run as they were logged: not in the order of the core where that turned out to be another. */
const asLogged = ({ job }: Snooped): Int32Array => {
  const { o, moved } = job;
  const listed = Int32Array.from(o.pieces, (_, i) => i);
  if (o.wrongNumbers.length === 0 && moved.size === 0) return listed;
  const rank = new Map(o.readings.runs.map((run, i) => [run.id, i]));
  const place = new Map(o.readings.pieces.map((piece, i) => [piece.id, i]));
  const key = (i: number): number =>
    (rank.get(o.pieces[i].run) as number) * o.readings.pieces.length + (place.get(o.pieces[i].id) as number);
  return listed.sort((x, y) => key(x) - key(y));
};

const report = (snooped: Snooped, listed: Int32Array): DepthSolution => {
  const { job, adjusted, aside, findings } = snooped;
  const { o, a } = job;
  const { chain } = adjusted;
  const { core, hole, cov, pull, global, factor, net } = chain;
  const { layout } = net;
  const k = net.globals;
  const allowed = bounds(job, aside);
  const swaps = swappable(snooped);
  const place = positions(chain, swaps);
  const level = (first: number, column: number) =>
    learnedMean(first, global[column], deviation(factor, k, column));
  return {
    solver: SOLVER,
    assumptions: a,
    runs: o.readings.runs.map((run) => {
      const r = o.place.get(run.id) as number;
      const row = layout.last[r];
      let variance = cov[3 * row + 2];
      for (let j = 0; j < k; j++) variance += pull[row * 2 * k + k + j] ** 2;
      return {
        id: run.id,
        holeBottom: estimate(hole[row], Math.sqrt(variance), allowed.holeMin[r], allowed.holeMax[r]),
        stub: estimate(
          Math.max(0, hole[row] - core[layout.core[r]]),
          Math.sqrt(stubVariance(snooped, layout.core[r], row)),
          Math.max(0, allowed.holeMin[r] - allowed.coreMax[r]),
          allowed.holeMax[r] - allowed.coreMin[r],
        ),
      };
    }),
    pieces: Array.from(listed, (i) => solvedPiece(o.pieces[i], i, place, allowed, swaps)),
    findings: [...remarks(snooped), ...findings],
    learned: {
      cableScale: { value: global[Global.cable], sd: deviation(factor, k, Global.cable) },
      tapeScale: { value: global[Global.tape], sd: deviation(factor, k, Global.tape) },
      fillMean: level(a.fillMean, Global.fill),
      stubMean: level(a.stubMean, Global.stub),
      unsureGapMean: level(a.unsureGapMean, Global.unsure),
      groundGapMean:
        net.unknowns.ground < 0
          ? learnedMean(a.groundGapMean, 0, levelSd(a))
          : level(a.groundGapMean, net.unknowns.ground),
    },
    sweeps: adjusted.sweeps,
    converged: adjusted.converged,
  };
};

/** Pieces that may lie below the next one of their run; of two in a row that may, the first. */
export const swappable = ({ job }: Snooped): number[] => {
  const { pieces, runOfPiece } = job.o;
  const out: number[] = [];
  for (let i = 0; i + 1 < pieces.length; i++)
    if (pieces[i].orderUnsure === true && runOfPiece[i] === runOfPiece[i + 1] && out.at(-1) !== i - 1)
      out.push(i);
  return out;
};

/** Of D at one row less B at the same row or one above it: what lies between carries the one to the other. */
const stubVariance = ({ adjusted }: Snooped, coreRow: number, row: number): number => {
  const { cov, cross, driftCov, driftCross, pull, net } = adjusted.chain;
  const k = net.globals;
  // covariance of B at coreRow with (B, D, U) of the row reached, given the globals
  let tb = cov[3 * coreRow];
  let td = cov[3 * coreRow + 1];
  let tu = driftCov[3 * coreRow];
  for (let r = coreRow + 1; r <= row; r++) {
    const free = 1 / driftCov[3 * r - 1];
    const fb = driftCov[3 * r - 3] * free;
    const fd = driftCov[3 * r - 2] * free;
    const bb = cov[3 * r - 3] - fb * driftCov[3 * r - 3];
    const bd = cov[3 * r - 2] - fb * driftCov[3 * r - 2];
    const dd = cov[3 * r - 1] - fd * driftCov[3 * r - 2];
    const determinant = bb * dd - bd * bd;
    const b = tb - fb * tu;
    const d = td - fd * tu;
    const x = (b * dd - d * bd) / determinant;
    const y = (d * bb - b * bd) / determinant;
    const z = tu * free - fb * x - fd * y;
    tb = x * cross[4 * r] + y * cross[4 * r + 2] + z * driftCross[5 * r + 3];
    td = x * cross[4 * r + 1] + y * cross[4 * r + 3] + z * driftCross[5 * r + 4];
    tu = x * driftCross[5 * r] + y * driftCross[5 * r + 1] + z * driftCross[5 * r + 2];
  }
  let variance = cov[3 * coreRow] - 2 * td + cov[3 * row + 2];
  for (let j = 0; j < k; j++) variance += (pull[row * 2 * k + k + j] - pull[coreRow * 2 * k + j]) ** 2;
  return Math.max(0, variance);
};

const estimate = (value: number, sd: number, min: number, max: number): Estimate => ({
  value,
  sd,
  min: Math.min(min, value),
  max: Math.max(max, value),
});

const solvedPiece = (
  piece: DepthReadings['pieces'][number],
  i: number,
  place: Positions,
  allowed: Bounds,
  swaps: readonly number[],
): DepthSolution['pieces'][number] => {
  const top = place.top[i];
  const bottom = Math.max(place.bottom[i], top);
  // either order is allowed
  const first = swaps.includes(i) ? i : swaps.includes(i - 1) ? i - 1 : -1;
  if (first >= 0) {
    const { topMin, topMax, bottomMin, bottomMax } = allowed;
    const low = topMin[first];
    const high = bottomMax[first + 1];
    const short = bottomMin[i] - topMax[i];
    return {
      id: piece.id,
      run: piece.run,
      top: estimate(top, place.topSd[i], low, high - Math.max(0, short)),
      bottom: estimate(bottom, place.bottomSd[i], low + Math.max(0, short), high),
    };
  }
  return {
    id: piece.id,
    run: piece.run,
    top: estimate(top, place.topSd[i], allowed.topMin[i], allowed.topMax[i]),
    bottom: estimate(bottom, place.bottomSd[i], allowed.bottomMin[i], allowed.bottomMax[i]),
  };
};

const deviation = (factor: Float64Array, k: number, column: number): number => {
  let sum = 0;
  for (let j = 0; j <= column; j++) sum += factor[column * k + j] ** 2;
  return Math.sqrt(sum);
};

/** Mean and standard deviation of a lognormal quantity. */
const learnedMean = (first: number, level: number, sd: number) => {
  const value = first * Math.exp(level + (sd * sd) / 2);
  return { value, sd: value * Math.sqrt(Math.expm1(sd * sd)) };
};
