import type { Metres, Ratio } from '../units.ts';
import type { DepthAssumptions } from './assumptions.ts';

/** A depth with what is known of it. */
export interface Estimate {
  /** Posterior mean. */
  readonly value: Metres;
  /** Posterior standard deviation. */
  readonly sd: Metres;
  /** What the constraints allow with every reading within 3 of its tolerances. */
  readonly min: Metres;
  readonly max: Metres;
}

export interface SolvedPiece {
  readonly id: string;
  readonly run: string;
  readonly top: Estimate;
  readonly bottom: Estimate;
}

export interface SolvedRun {
  readonly id: string;
  /** Bottom of the hole after this run. */
  readonly holeBottom: Estimate;
  /** Ice left standing in the hole after this run (bottom of the hole less bottom of the last core). */
  readonly stub: Estimate;
}

/** The slip that best explains a reading that does not fit. */
export type Slip =
  | '10 cm'
  | '1 m'
  | 'swapped digits'
  | 'missing piece'
  | 'doubled piece'
  | 'zero changed'
  | 'lost ice not logged'
  /** A run logged under the wrong number, or a piece under the neighbouring run. */
  | 'run attributed wrongly'
  | 'no known slip';

export interface Finding {
  readonly what: 'run' | 'piece' | 'sounding' | 'cable check' | 'zero check';
  /** Id of the reading's run, piece, sounding, cable check or zero. */
  readonly which: string;
  readonly field:
    | 'from'
    | 'to'
    | 'length'
    | 'loss'
    | 'topBreak'
    | 'depth'
    | 'number'
    | 'run'
    | 'counter'
    | 'height';
  /** Reading minus what all other readings say; of a run or piece in the wrong place, how far that puts it off. */
  readonly size: Metres;
  readonly likely: Slip;
  /** Posterior probability of the named slip against no slip. */
  readonly probability: number;
  /** Smallest slip that would be seen at this reading (5 % false alarm, 80 % power). */
  readonly detectable: Metres;
  /** What the reading would have been without the slip, as the digits suggest; absent where none is named. */
  readonly suggested?: Metres;
  /** Where a run or a piece was attributed wrongly: the run (id) that it changes places with, comes after, or belongs to. */
  readonly suggestedRun?: string;
}

/** All that is estimated. Pieces that are out of place have no depth and are not in it. */
export interface DepthSolution {
  /** Changes when the same readings and assumptions may give other numbers. */
  readonly solver: string;
  readonly assumptions: DepthAssumptions;
  readonly runs: readonly SolvedRun[];
  readonly pieces: readonly SolvedPiece[];
  readonly findings: readonly Finding[];
  /** What the readings taught about the instruments and the hole. */
  readonly learned: {
    readonly cableScale: { readonly value: Ratio; readonly sd: Ratio };
    readonly tapeScale: { readonly value: Ratio; readonly sd: Ratio };
    readonly fillMean: { readonly value: Metres; readonly sd: Metres };
    readonly stubMean: { readonly value: Metres; readonly sd: Metres };
    readonly unsureGapMean: { readonly value: Metres; readonly sd: Metres };
    readonly groundGapMean: { readonly value: Metres; readonly sd: Metres };
  };
  readonly sweeps: number;
  readonly converged: boolean;
}
