import type { SolvedPiece } from '../depth/solution.ts';
import {
  course,
  type Direction,
  directionBetween,
  type HolePoint,
  type PathMethod,
} from '../geometry/hole-course.ts';
import type { Metres } from '../units.ts';
import type { DepthWithError } from './depth.ts';
import { checkStations, type InclinationStation } from './inclination.ts';

/** A depth along the hole, and where that is. */
export interface VerticalDepth {
  /** Along the hole. */
  readonly along: Metres;
  readonly vertical: DepthWithError;
  /** How far from under the zero; null where not every station has an azimuth. */
  readonly north: Metres | null;
  readonly east: Metres | null;
  /** Below the last station: its direction is taken to hold on. */
  readonly isBelowStations: boolean;
}

export interface VerticalPiece {
  readonly id: string;
  readonly top: VerticalDepth;
  readonly bottom: VerticalDepth;
}

const RADIANS = Math.PI / 180;
/** Azimuth of a hole of which only the tilt is known: any will do for the depth, as long as it is one and the same. */
const ONE_PLANE = 0;

/** Stations as directions, and what makes them differ: one with an angle changed. */
type Directions = readonly Direction[];

/**
 * Part `i` of the way down to `along`: from the zero to the first station straight in its direction (part 0), between
 * stations i-1 and i, and below the last one straight in its direction (part n).
 */
const part = (
  stations: readonly InclinationStation[],
  at: (i: number) => Direction,
  i: number,
  along: Metres,
  method: PathMethod,
): HolePoint => {
  const n = stations.length;
  const start = i === 0 ? 0 : stations[i - 1].depth;
  const end = i === n ? Number.POSITIVE_INFINITY : stations[i].depth;
  const length = Math.min(along, end) - start;
  if (length <= 0) return { vertical: 0, north: 0, east: 0 };
  if (i === 0) return course(at(0), at(0), length, method);
  if (i === n) return course(at(n - 1), at(n - 1), length, method);
  const above = at(i - 1);
  const whole = end - start;
  const below = length < whole ? directionBetween(above, at(i), length / whole) : at(i);
  return course(above, below, length, method);
};

const add = (a: HolePoint, b: HolePoint): HolePoint => ({
  vertical: a.vertical + b.vertical,
  north: a.north + b.north,
  east: a.east + b.east,
});

/**
 * Vertical depth of depths along the hole.
 *
 * @param stations in order of depth; directions are independent of each other
 * @param depths metres along the hole from its zero, with their own standard deviation
 * @returns in the order of `depths`. The standard deviation holds the depth's own, times the cosine of the inclination
 *   there, and every station's: of first and second order, since the first vanishes in a hole that is vertical
 *   (GUM, JCGM 100:2008, 5.1.2 note). What all readings of one instrument share is not in it.
 * @throws DepthScaleError
 */
export const verticalDepths = (
  stations: readonly InclinationStation[],
  depths: readonly DepthWithError[],
  method: PathMethod = 'minimum curvature',
): readonly VerticalDepth[] => {
  checkStations(stations);
  const hasAzimuth = stations.every((one) => one.azimuth !== undefined);
  const directions: Directions = stations.map(({ inclination, azimuth }) => ({
    inclination,
    azimuth: hasAzimuth ? (azimuth as number) : ONE_PLANE,
  }));
  return depths.map(({ value: along, sd }) => {
    let point: HolePoint = { vertical: 0, north: 0, east: 0 };
    for (let i = 0; i <= stations.length; i++)
      point = add(
        point,
        part(stations, (k) => directions[k], i, along, method),
      );
    let variance = (sd * slope(stations, directions, along)) ** 2;
    stations.forEach((station, k) => {
      const by = (inclination: number, azimuth: number) => {
        const moved = {
          inclination: directions[k].inclination + inclination,
          azimuth: directions[k].azimuth + azimuth,
        };
        const at = (j: number) => (j === k ? moved : directions[j]);
        return (
          part(stations, at, k, along, method).vertical + part(stations, at, k + 1, along, method).vertical
        );
      };
      const here = by(0, 0);
      const spread = (up: number, down: number) => ((up - down) / 2) ** 2 + (up + down - 2 * here) ** 2 / 2;
      const { inclinationSd, azimuthSd = 0 } = station;
      if (inclinationSd > 0) variance += spread(by(inclinationSd, 0), by(-inclinationSd, 0));
      if (hasAzimuth && azimuthSd > 0) variance += spread(by(0, azimuthSd), by(0, -azimuthSd));
    });
    return {
      along,
      vertical: { value: point.vertical, sd: Math.sqrt(variance) },
      north: hasAzimuth ? point.north : null,
      east: hasAzimuth ? point.east : null,
      isBelowStations: along > stations[stations.length - 1].depth,
    };
  });
};

/** Cosine of the inclination at a depth. */
const slope = (stations: readonly InclinationStation[], directions: Directions, along: Metres): number => {
  const i = stations.findIndex((one) => one.depth > along);
  if (i === 0) return Math.cos(directions[0].inclination * RADIANS);
  if (i < 0) return Math.cos(directions[directions.length - 1].inclination * RADIANS);
  const share = (along - stations[i - 1].depth) / (stations[i].depth - stations[i - 1].depth);
  return Math.cos(directionBetween(directions[i - 1], directions[i], share).inclination * RADIANS);
};

/**
 * Vertical depth of solved pieces.
 *
 * @throws DepthScaleError
 */
export const verticalPieces = (
  stations: readonly InclinationStation[],
  pieces: readonly SolvedPiece[],
): readonly VerticalPiece[] => {
  const ends = verticalDepths(
    stations,
    pieces.flatMap(({ top, bottom }) => [top, bottom]),
  );
  return pieces.map(({ id }, i) => ({ id, top: ends[2 * i], bottom: ends[2 * i + 1] }));
};
