import type { CoreDensity, CorePiece, WaterNode } from '@firnbook/science/density';
import type { FirnFit, MeltShare } from '@firnbook/science/firn';

/** The smooth density at a depth, kg/m³, with what is random and what a whole cutter set shares. */
export interface ProfilePoint {
  readonly depth: number;
  readonly value: number;
  readonly randomSd: number;
  readonly sharedSd: number;
}

export interface ModelPoint {
  readonly depth: number;
  readonly value: number;
}

/**
 * Density and water of one hole: plain data, so that a worker can make it. Everything that can't be computed yet is
 * null or empty, and says so by that.
 */
export interface DensityView {
  readonly hole: string;
  /** By the piece's id. */
  readonly pieces: Readonly<Record<string, CorePiece>>;
  /** The smooth profile down the core. */
  readonly profile: readonly ProfilePoint[];
  /** Cumulative water equivalent at every end of a piece or gap; empty where there is no profile to fill gaps. */
  readonly water: readonly WaterNode[];
  /** Share of the way that was weighed. */
  readonly weighed: number;
  /** Over all of the solved core; null without melt layers. */
  readonly melt: MeltShare | null;
  /** The model of the site as it was given, and fitted to what was measured. */
  readonly model: readonly ModelPoint[];
  readonly fit:
    | (Pick<FirnFit, 'parameters' | 'rms' | 'rmsBefore' | 'reducedChiSquare' | 'converged'> & {
        readonly curve: readonly ModelPoint[];
      })
    | null;
  readonly assumptions: CoreDensity['assumptions'];
  /** Ids of pieces that a person has to look at. */
  readonly flagged: readonly string[];
  /** Why something could not be computed, in the words of the science room; null where nothing failed. */
  readonly trouble: string | null;
}
