export { type CloseOffVariant, closedShareOfPores, closeOffDensity, lockInDensity } from './close-off.ts';
export { degreeDayFactor, degreeDayMelt } from './degree-day-melt.ts';
export { positiveDegrees, yearlyDegreeDays } from './degree-days.ts';
export { exponentialDensity } from './exponential-profile.ts';
export {
  type FirnFit,
  type FirnLayer,
  type FirnParameter,
  fitHerronLangway,
  meanDensity,
  rmsAgainst,
} from './fit-herron-langway.ts';
export { type FirnColumn, type FirnSite, herronLangway, outsideCalibration } from './herron-langway.ts';
export { firnAgeAll, firnDensityAll, firnWaterAll } from './herron-langway-all.ts';
export {
  type MeltLayer,
  type MeltShare,
  meltByYear,
  meltPercentageOfYear,
  meltShare,
  type YearBounds,
} from './melt.ts';
export { firnStrainRate, sinkingRate } from './strain-rate.ts';
