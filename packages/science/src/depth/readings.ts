import type { Metres } from '../units.ts';

/** How the top of a piece meets the piece above it. More words map to these (sawn, ground, broken in handling). */
export type BreakClass = 'fits' | 'loss' | 'unsure';

/** One trip of the drill, in the order of the work. Depths are the driller's, from the cable. */
export interface RunReading {
  readonly id: string;
  /** Counter when the drill touched down; absent where it was not read. */
  readonly from?: Metres;
  /** Counter at the end of cutting, cable taut. */
  readonly to?: Metres;
}

/** One piece of core as measured on the bench, in the order in which it came up (top first). */
export interface PieceReading {
  readonly id: string;
  /** The run that brought it up. */
  readonly run: string;
  readonly length?: Metres;
  readonly topBreak: BreakClass;
  /** Estimated missing ice above this piece, where topBreak is 'loss'. */
  readonly loss?: Metres;
}

/** Depth of the hole by weighted tape after a run. */
export interface SoundingReading {
  readonly id: string;
  readonly afterRun: string;
  readonly depth: Metres;
  /** Standard deviation of the sounding itself. */
  readonly sd: Metres;
}

/** Everything that says something about depth in one hole. */
export interface DepthReadings {
  readonly runs: readonly RunReading[];
  readonly pieces: readonly PieceReading[];
  readonly soundings: readonly SoundingReading[];
}
