import type { Metres } from '../units.ts';
import type { DepthAssumptions } from './assumptions.ts';

/** Assumptions that are not (yet) settings of a campaign. Common practice, no source. */
export interface Tolerances {
  /** Share of fills, of stubs and of unsure gaps that are far larger than usual, and the mean of these. */
  readonly rareFill: number;
  readonly rareFillMean: Metres;
  /** After a run that left its core in the hole the drill may well land on it. */
  readonly rareFillAfterEmpty: number;
  readonly rareFillAfterEmptyMean: Metres;
  readonly rareStub: number;
  readonly rareStubMean: Metres;
  readonly rareGap: number;
  readonly rareGapMean: Metres;
  /** Stub of a run that brought nothing. */
  readonly emptyStubMean: Metres;
  /** A piece whose length was not measured, or is set aside. */
  readonly unknownLengthMean: Metres;
  /** Gap where ice is missing that nobody estimated, in unsure gaps. */
  readonly lossInUnsureGaps: number;
  /** Gap that is set free because the readings don't close. */
  readonly freeGapMean: Metres;
  /** Of the mean of all breaks that fit, as a share of their maximum. */
  readonly fitMeanShare: number;
  /** Of the factor that all loss estimates share. */
  readonly lossFactorSd: number;
  /** Of a surface that is known, and of a start at depth that is not. */
  readonly surfaceSd: Metres;
  readonly unknownStartSd: Metres;
  /** First counter readings below this mean that the hole was begun deeper than the surface. */
  readonly deepStart: Metres;
  /** No run is longer, and no stub above a start at depth. */
  readonly longestRun: Metres;
  /** Offset of a zero that was moved. */
  readonly zeroShiftSd: Metres;
}

export const tolerances: Tolerances = {
  rareFill: 0.02,
  rareFillMean: 0.1,
  rareFillAfterEmpty: 0.3,
  rareFillAfterEmptyMean: 0.3,
  rareStub: 0.03,
  rareStubMean: 0.25,
  rareGap: 0.003,
  rareGapMean: 0.2,
  emptyStubMean: 1,
  unknownLengthMean: 0.5,
  lossInUnsureGaps: 5,
  freeGapMean: 0.3,
  fitMeanShare: 0.27,
  lossFactorSd: 0.1,
  surfaceSd: 0.0005,
  unknownStartSd: 10,
  deepStart: 2.5,
  longestRun: 5,
  zeroShiftSd: 1,
};

/** Standard deviation of the log of a learned mean. */
export const levelSd = (a: DepthAssumptions): number => Math.log(Math.max(1.001, a.meansKnownWithinFactor));

/** Variance of one counter reading: before rounding, and the rounding itself (uniform over one step). */
export const readingVariance = (a: DepthAssumptions): number => a.readingSd ** 2 + a.readingStep ** 2 / 12;
