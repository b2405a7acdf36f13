import {
  type CampaignView,
  type DepthView,
  depthAssumptions,
  depthReadings,
  depthView,
  type HoleView,
} from '@firnbook/campaign';
import {
  type DepthAssumptions,
  DepthInputError,
  type DepthSolution,
  solveDepths,
} from '@firnbook/science/depth';

export type SolvedHole =
  | { readonly ok: true; readonly solution: DepthSolution; readonly view: DepthView }
  | { readonly ok: false; readonly problem: string };

/** A hole of the book, by the same functions as the screens. */
export const solvedHole = (
  hole: HoleView,
  campaign: CampaignView,
  assumptions: DepthAssumptions = depthAssumptions(hole),
): SolvedHole => {
  try {
    const solution = solveDepths(depthReadings(hole, campaign), assumptions);
    return { ok: true, solution, view: depthView(hole, solution) };
  } catch (error) {
    if (error instanceof DepthInputError) return { ok: false, problem: error.message };
    throw error;
  }
};
