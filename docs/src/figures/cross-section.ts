import type { Chart } from '@firnbook/drawing';
import { circleSegment, diskArea } from '@firnbook/science/geometry';

const diameter = 0.1;
const cuts = Array.from({ length: 101 }, (_, i) => i / 100);
const part = (of: (depth: number) => number) =>
  cuts.map((share) => [100 * share, 100 * of(share * diameter)] as const);

export const chart: Chart = {
  title: 'What a straight cut takes off a round core',
  x: { label: 'depth of the cut, part of the diameter', unit: '%', from: 0, to: 100 },
  y: { label: 'part', unit: '%', from: 0, to: 100 },
  curves: [
    {
      label: 'of the cross-section, cut off',
      at: part((depth) => circleSegment(diameter, depth).area / diskArea(diameter)),
    },
    {
      label: 'of the diameter, width of the face',
      at: part((depth) => circleSegment(diameter, depth).chord / diameter),
    },
    {
      label: 'of the radius, centroid of what is cut off',
      dashed: true,
      at: part((depth) => circleSegment(diameter, depth).centroid / (diameter / 2)),
    },
  ],
};
