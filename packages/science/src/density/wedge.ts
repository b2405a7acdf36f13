import { circleSegment } from '../geometry/circle.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type { CubicMetres, Metres } from '../units.ts';

/**
 * Ice missing from a cylinder of core:
 * - `end`: a corner broken off at an end: it reaches `depth` in from the rim, measured along the diameter, and
 *   `length` along the core at the rim, both parting on one plane. A slanting break right across has depth = diameter.
 * - `side`: a strip sawn or split off along `length`, its flat face `depth` below the rim.
 */
export interface Wedge {
  readonly kind: 'end' | 'side';
  readonly depth: Metres;
  readonly length: Metres;
}

/**
 * Volume of a missing wedge.
 *
 * - side: length times the circular segment that the flat face takes off;
 * - end (cylindrical hoof of height h, sections of which are segments): with radius r, depth b, half chord
 *   a = sqrt(b (2r - b)) and half angle phi = acos((r - b)/r), V = h/(3b) [a (3 r^2 - a^2) + 3 r^2 (b - r) phi].
 *
 * Source: handbooks of mathematics (I. N. Bronshtein and K. A. Semendyayev, "hoof" and "segment"; from memory); the
 * hoof of b = r is Archimedes', 2/3 r^2 h, that of b = 2r half a cylinder.
 *
 * @param where the reading, for errors
 * @throws QuantityError for a depth outside 0 to the diameter, a length that is not above 0
 */
export const wedgeVolume = ({ kind, depth, length }: Wedge, diameter: Metres, where: string): CubicMetres => {
  mustLie(where, 'depth of a missing wedge', depth, 0, diameter, 'm');
  if (!(length > 0)) throw new QuantityError(where, `length of a missing wedge is ${length} m`, 'above 0 m');
  if (depth === 0) return 0;
  const { area, chord } = circleSegment(diameter, depth);
  if (kind === 'side') return length * area;
  const r = diameter / 2;
  const a = chord / 2;
  const phi = Math.atan2(a, r - depth);
  return (length / (3 * depth)) * (a * (3 * r * r - a * a) + 3 * r * r * (depth - r) * phi);
};
