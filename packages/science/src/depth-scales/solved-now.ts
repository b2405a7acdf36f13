import type { DepthReadings, DepthSolution } from '../depth/index.ts';
import type { Solved } from './versions.ts';

/** Depths of readings as they are now, to be compared with a version or kept as one. */
export const solvedNow = (readings: DepthReadings, solution: DepthSolution): Solved => ({
  readings,
  assumptions: solution.assumptions,
  solver: solution.solver,
  pieces: solution.pieces,
});
