/**
 * The invented site. No such place was ever drilled or measured: the numbers are made up so that they hang together
 * as those of a cold saddle would.
 */

/** Density of the invented ice, kg/m³; a plain exponential towards ice, made up and nobody's model. */
export const densityAt = (depth: number): number => 917 - 565 * Math.exp(-depth / 31);

/** Temperature in the hole, °C: the winter's cold at the top fades to the mean of the year. */
export const temperatureAt = (depth: number): number => -17.4 - 5 * Math.exp(-depth / 3);

/** Dust that lies in all three holes, by which they can be joined: depth in hole A, metres. */
export const dustLayers: readonly number[] = [23.41, 41.36, 58.92, 77.83, 96.15];

/** By how much the surface at each hole lies above that at hole A, as its layers show, metres. */
export const holeOffsets = { A: 0, B: 0.42, C: -0.27 } as const;

export type Letter = keyof typeof holeOffsets;
