export { type DepthAssumptions, defaultAssumptions } from './assumptions.ts';
export { DepthInputError } from './input-error.ts';
export type { BreakClass, DepthReadings, PieceReading, RunReading, SoundingReading } from './readings.ts';
export type { DepthSolution, Estimate, Finding, Slip, SolvedPiece, SolvedRun } from './solution.ts';
export { SOLVER, solveDepths } from './solve.ts';
