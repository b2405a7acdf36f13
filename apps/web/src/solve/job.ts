import type { DepthAssumptions, DepthReadings, DepthSolution } from '@firnbook/science/depth';

/** One hole to solve; `turn` comes back with the answer. */
export interface Job {
  readonly turn: number;
  readonly readings: DepthReadings;
  readonly assumptions: DepthAssumptions;
}

export type Solved =
  | { readonly turn: number; readonly ok: true; readonly solution: DepthSolution }
  /** The readings cannot be solved as they are; `problem` says which and what to do. */
  | { readonly turn: number; readonly ok: false; readonly problem: string };
