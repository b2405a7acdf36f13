import type { Chart } from '@firnbook/drawing';
import { holeTime } from '@firnbook/science/mechanics';

const pace = { lowering: 1, hoisting: 0.7, penetration: 0.3 / 60, handling: 600 };
/** Hours to a depth in runs of one length. */
const hours = (length: number) =>
  Array.from({ length: 51 }, (_, i) => 4 * i).map(
    (depth) => [holeTime(0, depth, length, pace).time / 3600, depth] as const,
  );

export const chart: Chart = {
  title: 'Hours of drilling to a depth, by length of a run',
  x: { label: 'time without repairs and weather', unit: 'h', from: 0, to: 120 },
  y: { label: 'depth', unit: 'm', from: 200, to: 0 },
  curves: [
    { label: 'runs of 0.6 m', at: hours(0.6) },
    { label: 'runs of 0.9 m', at: hours(0.9) },
    { label: 'runs of 1.4 m', at: hours(1.4) },
  ],
};
