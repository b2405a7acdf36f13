import type { Chart } from '@firnbook/drawing';
import { holePath, type PathMethod } from '@firnbook/science/geometry';

/** A hole that turns as it goes: 4 degrees off the vertical, once round in 150 m, 120 m long. */
const [inclination, turn, end] = [4, 150, 120];
const radians = Math.PI / 180;

/** How far from the helix's own end a survey ends, millimetres, by the distance of its stations. */
const miss = (method: PathMethod) =>
  [1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48].map((parts) => {
    const depths = Array.from({ length: parts + 1 }, (_, i) => (end * i) / parts);
    const { points } = holePath(
      depths,
      depths.map((depth) => ({ inclination, azimuth: (360 * depth) / turn })),
      method,
    );
    const last = points[parts];
    const w = (2 * Math.PI) / turn;
    const flat = Math.sin(inclination * radians) / w;
    const off = Math.hypot(
      (last?.vertical ?? 0) - end * Math.cos(inclination * radians),
      (last?.north ?? 0) - flat * Math.sin(w * end),
      (last?.east ?? 0) - flat * (1 - Math.cos(w * end)),
    );
    return [end / parts, 1000 * off] as const;
  });

export const chart: Chart = {
  title: 'What a survey of a turning hole misses',
  x: { label: 'distance of stations', unit: 'm', from: 2, to: 200, log: true },
  y: { label: 'off at 120 m', unit: 'mm', from: 0.1, to: 20_000, log: true },
  curves: [
    { label: 'minimum curvature', at: miss('minimum curvature') },
    { label: 'average angle', at: miss('average angle') },
    { label: 'balanced tangential', dashed: true, at: miss('balanced tangential') },
  ],
};
