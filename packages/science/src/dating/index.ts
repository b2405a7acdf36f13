export { accumulationOfLayer } from './accumulation-of-layer.ts';
export { type AgeAtDepth, ageAtDepth, type FlowShape } from './age-at-depth.ts';
export { dansgaardJohnsen } from './dansgaard-johnsen.ts';
export {
  type CalendarDay,
  dayOfDecimalYear,
  dayOfYear,
  decimalYear,
  isoWeek,
  readDate,
  writtenDate,
  writtenOrdinal,
  writtenWeek,
} from './dates.ts';
export { decayConstant, decayed, relativeErrorByHalfLife } from './decay.ts';
export { elapsedYears } from './elapsed.ts';
export { astronomicalYear, type Epoch, epochs, type YearByEpoch, yearByEpoch } from './epochs.ts';
export { flowAgeAll, flowLayerAll } from './flow-all.ts';
export type { FlowModel } from './flow-model.ts';
export { type HalfLife, type HalfLifeEvaluation, halfLife } from './half-life.ts';
export { type CountedAge, type CountingConvention, countedAge } from './layer-counting.ts';
export { constantConcentrationAge } from './lead-210-constant-concentration.ts';
export {
  accumulationOfSlope,
  type ConstantFlux,
  constantFluxAccumulation,
  type Lead210Sample,
} from './lead-210-constant-flux.ts';
export {
  type ConstantSupply,
  constantSupply,
  type Lead210Layers,
} from './lead-210-constant-supply.ts';
export { nye } from './nye.ts';
export { twoParameter } from './two-parameter.ts';
export { daysOfYearNamed, type YearName } from './year-length.ts';
