import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Metres, SquareMetres } from '../units.ts';

const where = 'circle';

/**
 * Area of a round cross-section: pi d^2/4.
 *
 * @param diameter 0 to 10 m
 * @throws QuantityError outside
 */
export const diskArea = (diameter: Metres): SquareMetres => {
  mustLie(where, 'diameter', diameter, 0, 10, 'm');
  return (Math.PI / 4) * diameter * diameter;
};

/**
 * Area between two circles of one centre: pi/4 (D^2 - d^2).
 *
 * @throws QuantityError unless 0 <= inner < outer <= 10 m
 */
export const ringArea = (outer: Metres, inner: Metres): SquareMetres => {
  mustLie(where, 'outer diameter', outer, 0, 10, 'm');
  if (!(inner >= 0 && inner < outer))
    throw new QuantityError(where, `inner diameter is ${inner} m`, `0 m to below the outer one, ${outer} m`);
  return (Math.PI / 4) * (outer - inner) * (outer + inner);
};

/** What a straight cut takes off a circle. */
export interface Segment {
  readonly area: SquareMetres;
  /** Length of the cut's face. */
  readonly chord: Metres;
  /** Of the area from the centre of the circle. */
  readonly centroid: Metres;
}

/**
 * Segment that a straight cut takes off a circle. With radius r, depth b of the cut from the rim, half angle
 * phi = acos((r - b)/r), half chord a = sqrt(b (2r - b)): area r^2 phi - (r - b) a, chord 2a, centroid (2/3) a^3/area
 * from the centre.
 *
 * Source: handbooks of mathematics, circular segment (from memory; checked against quadrature).
 *
 * @param diameter above 0 to 10 m
 * @param depth 0 to the diameter
 * @throws QuantityError outside
 */
export const circleSegment = (diameter: Metres, depth: Metres): Segment => {
  mustLie(where, 'diameter', diameter, Number.MIN_VALUE, 10, 'm');
  mustLie(where, 'depth of the cut', depth, 0, diameter, 'm');
  const r = diameter / 2;
  const a = Math.sqrt(depth * (diameter - depth));
  // by the half chord, which keeps its digits where the cut is shallow
  const phi = Math.atan2(a, r - depth);
  const area = r * r * phi - (r - depth) * a;
  // as the cut gets shallow the centroid goes to the rim
  const centroid = depth < 1e-6 * diameter ? r - 0.6 * depth : (2 * a ** 3) / (3 * area);
  return { area, chord: 2 * a, centroid };
};
