import type { Adjusted } from './adjust.ts';
import type { Aside } from './aside.ts';
import { type DepthAssumptions, defaultAssumptions } from './assumptions.ts';
import { type Bounds, bounds } from './bounds.ts';
import { Global } from './net.ts';
import { type Ordered, order } from './order.ts';
import { positions } from './positions.ts';
import type { DepthReadings } from './readings.ts';
import { snoop } from './snooping.ts';
import type { DepthSolution, Estimate, Finding } from './solution.ts';
import { tolerances } from './tolerances.ts';

/** Changes when the same readings and assumptions may give other numbers. */
export const SOLVER = 'depth 2';

/**
 * All readings of one hole adjusted together.
 *
 * @param readings runs in the order of the work, pieces in the order in which they came up; metres
 * @param assumptions what is taken for granted; metres and ratios
 * @returns posterior mean and standard deviation of every depth, what the constraints allow (`min`, `max`, widened
 *   to hold the mean where the readings contradict each other), what doesn't fit, what was learned
 * @throws DepthInputError for a number that isn't one, a name used twice, a piece or sounding of an unknown run
 */
export const solveDepths = (
  readings: DepthReadings,
  assumptions: DepthAssumptions = defaultAssumptions,
): DepthSolution => {
  const o = order(readings);
  const { adjusted, aside, findings } = snoop(o, assumptions, tolerances);
  return report(o, assumptions, adjusted, aside, findings);
};

const report = (
  o: Ordered,
  assumptions: DepthAssumptions,
  adjusted: Adjusted,
  aside: Aside,
  findings: readonly Finding[],
): DepthSolution => {
  const { chain } = adjusted;
  const { core, hole, cov, pull, global, factor } = chain;
  const k = chain.net.globals;
  const allowed = bounds(o, assumptions, tolerances, aside);
  const place = positions(chain);
  return {
    solver: SOLVER,
    assumptions,
    runs: o.runs.map((run, i) => {
      const r = i + 1;
      let variance = cov[3 * r + 2];
      let stub = cov[3 * r] - 2 * cov[3 * r + 1] + cov[3 * r + 2];
      for (let j = 0; j < k; j++) {
        const b = pull[r * 2 * k + j];
        const d = pull[r * 2 * k + k + j];
        variance += d * d;
        stub += (d - b) ** 2;
      }
      return {
        id: run.id,
        holeBottom: estimate(hole[r], Math.sqrt(variance), allowed.holeMin[r], allowed.holeMax[r]),
        stub: estimate(
          Math.max(0, hole[r] - core[r]),
          Math.sqrt(stub),
          Math.max(0, allowed.holeMin[r] - allowed.coreMax[r]),
          allowed.holeMax[r] - allowed.coreMin[r],
        ),
      };
    }),
    pieces: o.pieces.map((piece, i) => solvedPiece(piece, i, place, allowed)),
    findings,
    learned: {
      cableScale: { value: global[Global.cable], sd: deviation(factor, k, Global.cable) },
      tapeScale: { value: global[Global.tape], sd: deviation(factor, k, Global.tape) },
      fillMean: learnedMean(assumptions.fillMean, global[Global.fill], deviation(factor, k, Global.fill)),
      stubMean: learnedMean(assumptions.stubMean, global[Global.stub], deviation(factor, k, Global.stub)),
      unsureGapMean: learnedMean(
        assumptions.unsureGapMean,
        global[Global.unsure],
        deviation(factor, k, Global.unsure),
      ),
    },
    sweeps: adjusted.sweeps,
    converged: adjusted.converged,
  };
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
  place: ReturnType<typeof positions>,
  allowed: Bounds,
): DepthSolution['pieces'][number] => {
  const top = place.top[i];
  const bottom = Math.max(place.bottom[i], top);
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
