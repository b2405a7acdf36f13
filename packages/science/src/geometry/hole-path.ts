import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Metres } from '../units.ts';
import { course, type Direction, dogleg, type HolePoint, type PathMethod } from './hole-course.ts';

const where = 'path of the hole';

/** Where a hole is at its stations. */
export interface HolePath {
  readonly points: readonly HolePoint[];
  /** Most bend between two stations, degrees a metre; 0 with one station. */
  readonly sharpestBend: number;
}

/**
 * Path of a hole from its zero through stations of inclination and azimuth; above the first station it is straight in
 * that one's direction. Source: as for `course`, one course after the other.
 *
 * @param depths along the hole, rising from 0 or more, m
 * @param directions one to each depth, inclination 0 to below 90 degrees
 * @throws QuantityError for no station, series of different lengths, depths out of order, angles outside
 */
export const holePath = (
  depths: readonly Metres[],
  directions: readonly Direction[],
  method: PathMethod,
): HolePath => {
  if (depths.length === 0 || depths.length !== directions.length)
    throw new QuantityError(
      where,
      `${depths.length} depths have ${directions.length} directions`,
      'a direction to each depth, one or more',
    );
  directions.forEach(({ inclination, azimuth }, i) => {
    mustLie(where, `inclination of station ${i + 1}`, inclination, 0, 89.999, 'deg');
    mustLie(where, `azimuth of station ${i + 1}`, azimuth, -360, 720, 'deg');
  });
  mustLie(where, 'depth of station 1', depths[0], 0, 10_000, 'm');
  const points = [course(directions[0], directions[0], depths[0], method)];
  let sharpestBend = 0;
  for (let i = 1; i < depths.length; i++) {
    mustLie(where, `depth of station ${i + 1}`, depths[i], depths[i - 1] + 1e-6, 10_000, 'm');
    const length = depths[i] - depths[i - 1];
    const way = course(directions[i - 1], directions[i], length, method);
    const from = points[i - 1];
    points.push({
      vertical: from.vertical + way.vertical,
      north: from.north + way.north,
      east: from.east + way.east,
    });
    const bend = (dogleg(directions[i - 1], directions[i]) * 180) / Math.PI;
    sharpestBend = Math.max(sharpestBend, bend / length);
  }
  return { points, sharpestBend };
};
