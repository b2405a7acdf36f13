import type { Relation } from '../relations/relation.ts';
import { numbersTaken, numberTaken, relation } from '../relations/relation.ts';
import { circleSegment, diskArea } from './circle.ts';
import { pathMethods } from './hole-course.ts';
import { holePath } from './hole-path.ts';
import type { Point } from './polygon.ts';
import { distanceToFace, stickOf } from './stick.ts';

const diameterAsked = numberTaken(
  'd',
  'diameter of the core',
  'mm',
  [1, 10_000],
  'what the formula can bear',
);
const place = {
  kind: 'number',
  unit: 'mm',
  range: [-10_000, 10_000],
  because: 'what the formula can bear',
} as const;
const cornersAsked = {
  xs: {
    ...place,
    kind: 'numbers',
    symbol: 'x_i',
    what: 'corners in order, to the right of the core’s centre',
  },
  ys: { ...place, kind: 'numbers', symbol: 'y_i', what: 'corners in order, above the core’s centre' },
} as const;
/** A corner that lacks one of the two is refused by what takes it. */
const cornersOf = (xs: readonly number[], ys: readonly number[]): readonly Point[] =>
  Array.from({ length: Math.max(xs.length, ys.length) }, (_, i) => [
    (xs[i] ?? Number.NaN) / 1000,
    (ys[i] ?? Number.NaN) / 1000,
  ]);

const circleSegmentRelation = relation({
  name: 'circle-segment',
  title: 'Segment that a straight cut takes off a round core',
  page: 'cross-section',
  source: 'circular segment; handbooks of mathematics (from memory, checked by quadrature)',
  takes: {
    diameter: diameterAsked,
    depth: numberTaken(
      'b',
      'depth of the cut from the drilled surface, along the diameter',
      'mm',
      [0, 10_000],
      'no more than the diameter',
    ),
  },
  gives: {
    area: { symbol: 'A', what: 'area cut off', unit: 'cm2' },
    part: { symbol: 'A/A_0', what: 'part of the cross-section', unit: '%' },
    chord: { symbol: 'c', what: 'width of the sawn face', unit: 'mm' },
    centroid: { symbol: 'x_s', what: 'centroid of what is cut off, from the core’s centre', unit: 'mm' },
  },
  compute: ({ diameter, depth }) => {
    const { area, chord, centroid } = circleSegment(diameter / 1000, depth / 1000);
    return {
      area: area * 1e4,
      part: (100 * area) / diskArea(diameter / 1000),
      chord: chord * 1000,
      centroid: centroid * 1000,
    };
  },
});

const stickRelation = relation({
  name: 'stick',
  title: 'Area, mass and distance to the drilled surface of a stick',
  page: 'cross-section',
  source: 'Green’s theorem for the part of a polygon in a circle',
  takes: {
    ...cornersAsked,
    diameter: diameterAsked,
    density: {
      ...numberTaken('ρ', 'density of the ice', 'kg/m3', [50, 940], 'fresh snow to ice under pressure'),
      usual: 917,
    },
  },
  gives: {
    area: { symbol: 'A', what: 'area that is in the core', unit: 'cm2' },
    mass: { symbol: 'm', what: 'mass of a metre', unit: 'kg/m' },
    x: { symbol: 'x_s', what: 'centroid, to the right of the core’s centre', unit: 'mm' },
    y: { symbol: 'y_s', what: 'centroid, above the core’s centre', unit: 'mm' },
    toRim: { symbol: 'a', what: 'least distance to the drilled surface', unit: 'mm' },
  },
  compute: ({ xs, ys, diameter, density }) => {
    const { area, centroid, toRim } = stickOf(cornersOf(xs, ys), diameter / 1000);
    return {
      area: area * 1e4,
      mass: area * density,
      x: centroid[0] * 1000,
      y: centroid[1] * 1000,
      toRim: toRim * 1000,
    };
  },
});

const stickToFaceRelation = relation({
  name: 'stick-to-face',
  title: 'Least distance of a stick to a sawn face',
  page: 'cross-section',
  source: 'plane geometry',
  takes: {
    ...cornersAsked,
    diameter: diameterAsked,
    x1: { ...place, symbol: 'x_1', what: 'first end of the face, to the right' },
    y1: { ...place, symbol: 'y_1', what: 'first end of the face, above' },
    x2: { ...place, symbol: 'x_2', what: 'second end of the face, to the right' },
    y2: { ...place, symbol: 'y_2', what: 'second end of the face, above' },
  },
  gives: { distance: { symbol: 'a', what: 'least distance', unit: 'mm' } },
  compute: ({ xs, ys, diameter, x1, y1, x2, y2 }) => ({
    distance:
      1000 *
      distanceToFace(cornersOf(xs, ys), diameter / 1000, [
        [x1 / 1000, y1 / 1000],
        [x2 / 1000, y2 / 1000],
      ]),
  }),
});

const holeDeviationRelation = relation({
  name: 'hole-deviation',
  title: 'Course of a hole that is not vertical',
  page: 'inclination',
  source: 'minimum curvature and average angle as in handbooks of directional surveying',
  takes: {
    depths: numbersTaken(
      's_i',
      'depths of the stations along the hole',
      'm',
      [0, 10_000],
      'what the formula can bear',
    ),
    inclinations: numbersTaken(
      'I_i',
      'angle from the vertical at each station',
      'deg',
      [0, 89.9],
      'a hole that goes down',
    ),
    azimuths: numbersTaken(
      'A_i',
      'direction of the way down at each station, clockwise from north',
      'deg',
      [-360, 720],
      'once round either way',
    ),
    method: { kind: 'choice', symbol: '', what: 'way of surveying', options: pathMethods },
  },
  gives: {
    verticals: { symbol: 'V_i', what: 'vertical depth of each station', unit: 'm' },
    vertical: { symbol: 'V', what: 'vertical depth of the last station', unit: 'm' },
    north: { symbol: 'N', what: 'way to the north', unit: 'm' },
    east: { symbol: 'E', what: 'way to the east', unit: 'm' },
    off: { symbol: 'H', what: 'distance from under the zero', unit: 'm' },
    sharpestBend: { symbol: 'β/L', what: 'sharpest bend between two stations', unit: 'deg/m' },
  },
  compute: ({ depths, inclinations, azimuths, method }) => {
    const directions = Array.from({ length: Math.max(inclinations.length, azimuths.length) }, (_, i) => ({
      inclination: inclinations[i] ?? Number.NaN,
      azimuth: azimuths[i] ?? Number.NaN,
    }));
    const { points, sharpestBend } = holePath(depths, directions, method);
    const { vertical, north, east } = points[points.length - 1];
    return {
      verticals: points.map((point) => point.vertical),
      vertical,
      north,
      east,
      off: Math.hypot(north, east),
      sharpestBend,
    };
  },
});

export const geometryRelations: readonly Relation[] = [
  circleSegmentRelation,
  stickRelation,
  stickToFaceRelation,
  holeDeviationRelation,
];
