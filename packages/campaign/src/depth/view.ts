import type { DepthSolution } from '@firnbook/science/depth';
import type { DepthView, HoleView } from '../view.ts';
import { isConfirmed } from './confirmed.ts';

/** Solved depths of a hole by the ids of its things. */
export function depthView(hole: HoleView, solution: DepthSolution): DepthView {
  return {
    hole: hole.id,
    solver: solution.solver,
    assumptions: solution.assumptions,
    pieces: Object.fromEntries(solution.pieces.map(({ id, top, bottom }) => [id, { top, bottom }])),
    runs: Object.fromEntries(solution.runs.map(({ id, holeBottom, stub }) => [id, { holeBottom, stub }])),
    findings: solution.findings.filter((one) => !isConfirmed(hole, one)),
    confirmed: solution.findings.filter((one) => isConfirmed(hole, one)),
    learned: solution.learned,
    converged: solution.converged,
    coreBottom: solution.pieces.at(-1)?.bottom ?? null,
    holeBottom: solution.runs.at(-1)?.holeBottom ?? null,
  };
}
