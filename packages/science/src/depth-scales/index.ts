export type { Change, ThingOfDepth } from './changes.ts';
export { type Closing, closing } from './closing.ts';
export {
  type Conversion,
  type ConversionRow,
  type Converted,
  conversion,
  conversionTable,
  type Within,
} from './convert.ts';
export {
  type DepthScale,
  DepthScaleError,
  type DepthWithError,
  type ScaledDepth,
  scaleName,
} from './depth.ts';
export type { InclinationStation } from './inclination.ts';
export type { Check } from './next-checks.ts';
export { type HorizonPair, type OffsetEstimate, offsetOf } from './offset.ts';
export {
  drillerScale,
  loggerScale,
  type Place,
  type ScaleOfHole,
  solvedScale,
  type Tie,
  tiedScale,
} from './scales.ts';
export { solvedNow } from './solved-now.ts';
export {
  fromComposite,
  type Joined,
  joinRecords,
  type Loop,
  type Splice,
  type Stretch,
  toComposite,
} from './splices.ts';
export { type LongestRun, type Verdict, verdict } from './verdict.ts';
export {
  type Cause,
  type DepthDifference,
  type DepthVersion,
  diff,
  type Movement,
  type Solved,
} from './versions.ts';
export { type VerticalDepth, type VerticalPiece, verticalDepths, verticalPieces } from './vertical.ts';
