export { type DepthAssumptions, defaultAssumptions } from './assumptions.ts';
export { type DepthDraw, jointDraws } from './draws.ts';
export { DepthInputError } from './input-error.ts';
export type {
  BreakClass,
  CableCheck,
  CableData,
  DepthReadings,
  Judged,
  PieceReading,
  RunReading,
  SoundingReading,
  StrainTable,
  TrayTape,
  ZeroReading,
} from './readings.ts';
export type { DepthSolution, Estimate, Finding, Slip, SolvedPiece, SolvedRun } from './solution.ts';
export { adjustDepths, type DepthPosterior, SOLVER, solveDepths } from './solve.ts';
