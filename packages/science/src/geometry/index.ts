export { circleSegment, diskArea, ringArea, type Segment } from './circle.ts';
export {
  course,
  type Direction,
  directionBetween,
  dogleg,
  type HolePoint,
  type PathMethod,
  pathMethods,
} from './hole-course.ts';
export { type HolePath, holePath } from './hole-path.ts';
export type { Point, Polygon } from './polygon.ts';
export { distanceToFace, type Stick, stickOf } from './stick.ts';
