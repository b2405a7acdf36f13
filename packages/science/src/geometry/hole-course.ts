import type { Degrees, Metres } from '../units.ts';

/** Where a point of the hole lies from its zero. */
export interface HolePoint {
  /** Straight down. */
  readonly vertical: Metres;
  readonly north: Metres;
  readonly east: Metres;
}

/** Ways of surveying, by name; the first is the default. */
export const pathMethods = ['minimum curvature', 'average angle', 'balanced tangential'] as const;
export type PathMethod = (typeof pathMethods)[number];

const RADIANS = Math.PI / 180;

/** Which way the hole goes, both angles known. */
export interface Direction {
  readonly inclination: Degrees;
  readonly azimuth: Degrees;
}

/**
 * Angle between two directions of the hole, radians. The haversine form of the usual
 * cos b = cos(I2 - I1) - sin I1 sin I2 (1 - cos(A2 - A1)): the same, without loss of digits where b is small.
 */
export const dogleg = (above: Direction, below: Direction): number => {
  const i1 = above.inclination * RADIANS;
  const i2 = below.inclination * RADIANS;
  const turn = Math.sin(((below.azimuth - above.azimuth) * RADIANS) / 2);
  const build = Math.sin((i2 - i1) / 2);
  return (
    2 *
    Math.asin(Math.sqrt(Math.min(1, Math.max(0, build * build + Math.sin(i1) * Math.sin(i2) * turn * turn))))
  );
};

/** Arc over chord along its tangents: tan(b/2) / (b/2); its series where the quotient loses digits. */
export const ratioFactor = (b: number): number =>
  b < 1e-3 ? 1 + (b * b) / 12 + b ** 4 / 120 : (2 / b) * Math.tan(b / 2);

/**
 * Way from one station to the next.
 *
 * Minimum curvature: an arc of a circle that both directions touch. Balanced tangential: half the way in each of the
 * two directions. Average angle: the whole way in the mean direction.
 *
 * @param length along the hole, metres
 * @source formulas as in handbooks of directional surveying; worked examples beside the tests
 */
export const course = (
  above: Direction,
  below: Direction,
  length: Metres,
  method: PathMethod = 'minimum curvature',
): HolePoint => {
  const i1 = above.inclination * RADIANS;
  const i2 = below.inclination * RADIANS;
  const a1 = above.azimuth * RADIANS;
  const a2 = below.azimuth * RADIANS;
  if (method === 'average angle') {
    const inclination = (i1 + i2) / 2;
    // the short way round north: the mean of 350 and 10 degrees is 0
    const azimuth = a1 + Math.atan2(Math.sin(a2 - a1), Math.cos(a2 - a1)) / 2;
    const flat = length * Math.sin(inclination);
    return {
      vertical: length * Math.cos(inclination),
      north: flat * Math.cos(azimuth),
      east: flat * Math.sin(azimuth),
    };
  }
  const factor = method === 'minimum curvature' ? ratioFactor(dogleg(above, below)) : 1;
  const half = (length / 2) * factor;
  return {
    vertical: half * (Math.cos(i1) + Math.cos(i2)),
    north: half * (Math.sin(i1) * Math.cos(a1) + Math.sin(i2) * Math.cos(a2)),
    east: half * (Math.sin(i1) * Math.sin(a1) + Math.sin(i2) * Math.sin(a2)),
  };
};

/** Direction part of the way along the arc between two stations: the great circle between the two (slerp). */
export const directionBetween = (above: Direction, below: Direction, share: number): Direction => {
  const b = dogleg(above, below);
  if (b < 1e-9) return above;
  const w1 = Math.sin((1 - share) * b) / Math.sin(b);
  const w2 = Math.sin(share * b) / Math.sin(b);
  const part = (of: (one: Direction) => number) => w1 * of(above) + w2 * of(below);
  const north = part((d) => Math.sin(d.inclination * RADIANS) * Math.cos(d.azimuth * RADIANS));
  const east = part((d) => Math.sin(d.inclination * RADIANS) * Math.sin(d.azimuth * RADIANS));
  const down = part((d) => Math.cos(d.inclination * RADIANS));
  return {
    inclination: Math.atan2(Math.hypot(north, east), down) / RADIANS,
    azimuth: Math.atan2(east, north) / RADIANS,
  };
};
