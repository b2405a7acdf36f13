export { type CloseOffVariant, closedShareOfPores, closeOffDensity, lockInDensity } from './close-off.ts';
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
export { type MeltLayer, type MeltShare, meltByYear, meltShare, type YearBounds } from './melt.ts';
export { firnStrainRate, sinkingRate } from './strain-rate.ts';
