export { type DensityAssumptions, defaultDensityAssumptions } from './assumptions.ts';
export { type DensityBin, densityBins } from './bins.ts';
export {
  type CoreDensity,
  type CorePiece,
  coreDensity,
  coreWater,
  type DensityFlag,
} from './core-density.ts';
export { cylinderDensity, type Shared } from './cylinder.ts';
export type { DensitySlip, SlippedReading } from './likely-slip.ts';
export { type PieceDensity, pieceBounds } from './piece-density.ts';
export type { PlacedDensity } from './placed-density.ts';
export type { CutterSet } from './pool-diameters.ts';
export { pieceVerdict, roundPieceDensity } from './possible-piece.ts';
export {
  type DensityProfile,
  densityProfile,
  type Residual,
} from './profile.ts';
export type { DiameterReading, PieceReadings } from './readings.ts';
export {
  iceEquivalent,
  layerWaterEquivalent,
  type WaterNode,
  type WaterPiece,
  type WaterScale,
  type WaterStart,
  waterEquivalentScale,
} from './water-equivalent.ts';
export type { Wedge } from './wedge.ts';
