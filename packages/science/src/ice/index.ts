export { firnConductivity, yen1981 } from './conductivity/index.ts';
export { iceDensityAll } from './density-all.ts';
export { type HeatCapacityLine, heatCapacityByLine } from './heat-capacity.ts';
export { latentHeatOfMelting, type MeltingVariant, meltingPoint } from './melting-point.ts';
export { type IceProperties, iceDensity, iceProperties, normalPressure } from './properties.ts';
export { lengthFactor, volumeFactor } from './thermal-size.ts';
