import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Metres } from '../units.ts';

/** A place on the cross-section of a core: metres from its centre. */
export type Point = readonly [x: Metres, y: Metres];

/** Corners in order, either way round; the last one joins the first. */
export type Polygon = readonly Point[];

const where = 'polygon of a cut';
/** A stick has four corners or some more; each edge is held against each other one. */
const most = 1000;

const cross = (o: Point, a: Point, b: Point): number =>
  (a[0] - o[0]) * (b[1] - o[1]) - (a[1] - o[1]) * (b[0] - o[0]);

/** Whether two edges have more than an end in common: a proper crossing, or an end of one within the other. */
const meet = (a: Point, b: Point, c: Point, d: Point): boolean => {
  const [abc, abd, cda, cdb] = [cross(a, b, c), cross(a, b, d), cross(c, d, a), cross(c, d, b)];
  if (Math.sign(abc) * Math.sign(abd) < 0 && Math.sign(cda) * Math.sign(cdb) < 0) return true;
  const within = (p: Point, q: Point, on: Point, side: number) =>
    side === 0 &&
    Math.min(p[0], q[0]) <= on[0] &&
    on[0] <= Math.max(p[0], q[0]) &&
    Math.min(p[1], q[1]) <= on[1] &&
    on[1] <= Math.max(p[1], q[1]);
  return within(a, b, c, abc) || within(a, b, d, abd) || within(c, d, a, cda) || within(c, d, b, cdb);
};

/**
 * Holds a polygon to what a cut can be.
 *
 * @returns it, counterclockwise
 * @throws QuantityError for fewer than 3 or more than 1000 corners, corners beyond 10 m, edges that cross, no area
 */
export const heldPolygon = (polygon: Polygon): Polygon => {
  const n = polygon.length;
  if (n < 3 || n > most) throw new QuantityError(where, `it has ${n} corners`, `3 to ${most}`);
  polygon.forEach(([x, y], i) => {
    mustLie(where, `x of corner ${i + 1}`, x, -10, 10, 'm');
    mustLie(where, `y of corner ${i + 1}`, y, -10, 10, 'm');
  });
  for (let i = 0; i < n; i++)
    for (let j = i + 2; j < n; j++)
      if (!(i === 0 && j === n - 1) && meet(polygon[i], polygon[i + 1], polygon[j], polygon[(j + 1) % n]))
        throw new QuantityError(
          where,
          `edges ${i + 1} and ${j + 1} meet`,
          'edges that meet at corners alone',
        );
  const doubled = twiceArea(polygon);
  if (doubled === 0) throw new QuantityError(where, 'it has no area', 'corners that are not on one line');
  return doubled > 0 ? polygon : polygon.toReversed();
};

/** Positive where the corners run counterclockwise (Gauss). */
const twiceArea = (polygon: Polygon): number => {
  const [first] = polygon;
  let sum = 0;
  for (let i = 1; i + 1 < polygon.length; i++) sum += cross(first, polygon[i], polygon[i + 1]);
  return sum;
};

/** Whether a point lies inside, by the number of edges that a ray to the right passes. */
export const isInside = (polygon: Polygon, [x, y]: Point): boolean => {
  let inside = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [[xi, yi], [xj, yj]] = [polygon[i], polygon[j]];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
};

/** Least distance from a point to a straight face. */
export const pointToFace = (p: Point, a: Point, b: Point): Metres => {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = dx * dx + dy * dy;
  const share = length === 0 ? 0 : ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length;
  const at = Math.min(1, Math.max(0, share));
  return Math.hypot(p[0] - a[0] - at * dx, p[1] - a[1] - at * dy);
};

/** Least distance between two straight faces; 0 where they meet. */
export const faceToFace = (a: Point, b: Point, c: Point, d: Point): Metres =>
  meet(a, b, c, d)
    ? 0
    : Math.min(pointToFace(a, c, d), pointToFace(b, c, d), pointToFace(c, a, b), pointToFace(d, a, b));
