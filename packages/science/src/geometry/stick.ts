import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Metres, SquareMetres } from '../units.ts';
import { faceToFace, heldPolygon, isInside, type Point, type Polygon } from './polygon.ts';

const where = 'stick of a core';

/** What is cut out of a round core: the part of a polygon that lies in the circle. */
export interface Stick {
  readonly area: SquareMetres;
  readonly centroid: Point;
  /** Least distance from the drilled surface; 0 where a side of the stick is that surface. */
  readonly toRim: Metres;
}

/** Part of an edge, wholly in the circle or wholly outside. */
interface Part {
  readonly from: Point;
  readonly to: Point;
  readonly isInside: boolean;
}

/** An edge parted where it passes the circle about the origin. */
const partsOf = (a: Point, b: Point, radius: Metres): readonly Part[] => {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  if (square === 0) return [];
  // where along the edge it is nearest to the centre, and half the chord
  const foot = -(a[0] * dx + a[1] * dy) / square;
  const off = (a[0] * dy - a[1] * dx) ** 2 / square;
  const half = radius * radius > off ? Math.sqrt((radius * radius - off) / square) : 0;
  const cuts = half === 0 ? [] : [foot - half, foot + half].filter((share) => share > 0 && share < 1);
  const shares = [0, ...cuts, 1];
  const at = (share: number): Point =>
    share === 0 ? a : share === 1 ? b : [a[0] + share * dx, a[1] + share * dy];
  return shares.slice(1).map((share, k) => ({
    from: at(shares[k]),
    to: at(share),
    isInside: half > 0 && Math.abs((shares[k] + share) / 2 - foot) < half,
  }));
};

const edgesOf = (polygon: Polygon, radius: Metres): readonly Part[] =>
  polygon.flatMap((corner, i) => partsOf(corner, polygon[(i + 1) % polygon.length], radius));

/**
 * Area, centroid and distance to the drilled surface of a stick, exact.
 *
 * The polygon is the signed sum of the triangles from the centre of the circle to its edges; of each triangle the part in
 * the circle is a triangle where the edge is inside, a sector where it is outside. Sums of area and of first moments.
 *
 * Source: Green's theorem; sector and triangle as in handbooks of mathematics.
 *
 * @param polygon about the centre of the core, m
 * @param diameter of the core, 0.001 to 10 m
 * @throws QuantityError for a polygon that is none, and where it has nothing of the core
 */
export const stickOf = (polygon: Polygon, diameter: Metres): Stick => {
  mustLie(where, 'diameter of the core', diameter, 0.001, 10, 'm');
  const corners = heldPolygon(polygon);
  const radius = diameter / 2;
  let [area, momentX, momentY] = [0, 0, 0];
  for (const {
    from: [px, py],
    to: [qx, qy],
    isInside: inCircle,
  } of edgesOf(corners, radius)) {
    const cross = px * qy - py * qx;
    if (inCircle) {
      area += cross / 2;
      momentX += (cross * (px + qx)) / 6;
      momentY += (cross * (py + qy)) / 6;
      continue;
    }
    const [p, q] = [Math.hypot(px, py), Math.hypot(qx, qy)];
    area += (radius * radius * Math.atan2(cross, px * qx + py * qy)) / 2;
    momentX += (radius ** 3 * (qy / q - py / p)) / 3;
    momentY += (radius ** 3 * (px / p - qx / q)) / 3;
  }
  if (!(area > 1e-12 * radius * radius))
    throw new QuantityError(
      where,
      'the polygon holds nothing of the core',
      `corners about the core’s centre, within its radius of ${radius} m`,
    );
  const farthest = Math.max(...corners.map(([x, y]) => Math.hypot(x, y)));
  return { area, centroid: [momentX / area, momentY / area], toRim: Math.max(0, radius - farthest) };
};

/**
 * Least distance from a stick to a face that was sawn, exact; 0 where they touch.
 *
 * @param face its two ends about the centre of the core, m
 * @throws QuantityError as `stickOf`, for a face that has no two ends
 */
export const distanceToFace = (
  polygon: Polygon,
  diameter: Metres,
  [a, b]: readonly [Point, Point],
): Metres => {
  stickOf(polygon, diameter);
  for (const [name, value] of [
    ['x of the first end', a[0]],
    ['y of the first end', a[1]],
    ['x of the second end', b[0]],
    ['y of the second end', b[1]],
  ] as const)
    mustLie(where, `${name} of the face`, value, -10, 10, 'm');
  if (a[0] === b[0] && a[1] === b[1])
    throw new QuantityError(where, 'the face has no length', 'a face with two ends');
  const corners = heldPolygon(polygon);
  const radius = diameter / 2;
  const inStick = (p: Point) => Math.hypot(p[0], p[1]) <= radius && isInside(corners, p);
  if (inStick(a) || inStick(b)) return 0;
  // it may pass in and out through sides that are the drilled surface
  const passes = partsOf(a, b, radius).filter((part) => part.isInside);
  if (passes.some(({ from, to }) => isInside(corners, from) || isInside(corners, to))) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (const { from, to, isInside: inCircle } of edgesOf(corners, radius))
    if (inCircle) least = Math.min(least, faceToFace(from, to, a, b));
  // of the drilled sides, the points of the circle nearest to the ends of the face and, where it passes outside of the
  // circle, to its foot
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const share = -(a[0] * dx + a[1] * dy) / (dx * dx + dy * dy);
  const foot: Point = [a[0] + share * dx, a[1] + share * dy];
  const isFootOutside = share > 0 && share < 1 && Math.hypot(...foot) > radius;
  for (const [x, y] of isFootOutside ? [a, b, foot] : [a, b]) {
    const far = Math.hypot(x, y);
    if (far > 0 && isInside(corners, [(x / far) * radius, (y / far) * radius]))
      least = Math.min(least, Math.abs(radius - far));
  }
  return least;
};
