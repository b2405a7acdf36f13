import { boundsOf } from './bounds.ts';
import type { Picture, Shape } from './shape.ts';

/** Half of the 15 mm that a gloved thumb covers. */
export const thumbSlack = 7.5;

/**
 * The thing under a finger: the uppermost shape that holds the point; else the nearest one within reach.
 *
 * @param x millimetres from the picture's left edge
 * @param y millimetres from its top edge
 * @param slack millimetres that a touch may miss by
 * @returns id of the thing, or null where nothing is within reach
 */
export function hit(picture: Picture, x: number, y: number, slack: number = thumbSlack): string | null {
  let nearest: string | null = null;
  let least = slack;
  for (let at = picture.shapes.length - 1; at >= 0; at -= 1) {
    const shape = picture.shapes[at]!;
    if (shape.thing === undefined) continue;
    const away = distance(shape, x, y, least);
    if (away === 0) return shape.thing;
    if (away < least) {
      least = away;
      nearest = shape.thing;
    }
  }
  return nearest;
}

/** Millimetres from a point to a shape, 0 inside; exact only where it is below `enough`. */
function distance(shape: Shape, x: number, y: number, enough: number): number {
  const box = boundsOf(shape);
  const toBox = Math.hypot(Math.max(box.x0 - x, 0, x - box.x1), Math.max(box.y0 - y, 0, y - box.y1));
  if (toBox >= enough) return toBox;
  if (shape.is === 'circle') return Math.max(0, Math.hypot(shape.x - x, shape.y - y) - shape.r);
  if (shape.is !== 'line') return toBox;
  if (shape.fill !== undefined && inside(shape.points, x, y)) return 0;
  const ends = shape.close ? [...shape.points, shape.points[0]!] : shape.points;
  let least = Infinity;
  for (let at = 1; at < ends.length; at += 1)
    least = Math.min(least, toSegment(ends[at - 1]!, ends[at]!, x, y));
  return Math.max(0, least - shape.stroke.width / 2);
}

type Point = readonly [number, number];

function toSegment([ax, ay]: Point, [bx, by]: Point, x: number, y: number): number {
  const [dx, dy] = [bx - ax, by - ay];
  const long = dx * dx + dy * dy;
  const share = long === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / long));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

/** Even-odd rule. */
function inside(points: readonly Point[], x: number, y: number): boolean {
  let odd = false;
  let [px, py] = points.at(-1) ?? [0, 0];
  for (const [qx, qy] of points) {
    if (qy > y !== py > y && x < ((px - qx) * (y - qy)) / (py - qy) + qx) odd = !odd;
    [px, py] = [qx, qy];
  }
  return odd;
}
