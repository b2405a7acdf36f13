import type { Degrees, Metres } from '../units.ts';
import { DepthScaleError } from './depth.ts';

/** Direction of the hole at one depth, by an inclinometer. */
export interface InclinationStation {
  /** Along the hole, from its zero. */
  readonly depth: Metres;
  /** From the vertical, 0 straight down; below 90. */
  readonly inclination: Degrees;
  /** Of the way down, clockwise from north. Means nothing where the inclination is 0; absent where not measured. */
  readonly azimuth?: Degrees;
  readonly inclinationSd: Degrees;
  readonly azimuthSd?: Degrees;
}

/** @throws DepthScaleError for a number that is none, an inclination outside of 0 to below 90, depths not in order */
export const checkStations = (stations: readonly InclinationStation[]): void => {
  if (stations.length === 0)
    throw new DepthScaleError('There is no inclination station: measure the hole, or take it as vertical.');
  stations.forEach((one, i) => {
    const where = `Inclination station ${i + 1} at ${one.depth} m`;
    const numbers = [one.depth, one.inclination, one.azimuth ?? 0, one.inclinationSd, one.azimuthSd ?? 0];
    if (!numbers.every(Number.isFinite))
      throw new DepthScaleError(`${where} holds something that is not a number: correct it or leave it out.`);
    if (one.depth < 0 || one.inclination < 0 || one.inclination >= 90)
      throw new DepthScaleError(
        `${where}: depth is 0 m or more and inclination from 0 to below 90 degrees from the vertical.`,
      );
    if (one.inclinationSd < 0 || (one.azimuthSd ?? 0) < 0)
      throw new DepthScaleError(`${where}: a standard deviation is not negative.`);
    if (i > 0 && one.depth <= stations[i - 1].depth)
      throw new DepthScaleError(`${where} is not below the one before: put them in order, each depth once.`);
  });
};
