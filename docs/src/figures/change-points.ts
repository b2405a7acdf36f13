import type { Chart } from '@firnbook/drawing';
import { seeded } from '@firnbook/science/random';
import { changePoints } from '@firnbook/science/statistics';

/** A made series: 40 values about 5, 25 about 7, 55 about 4.2; scatter 0.8. */
const levels = [5, 7, 4.2];
const counts = [40, 25, 55];
const { normal } = seeded(6);
const values = levels.flatMap((level, k) =>
  Array.from({ length: counts[k] ?? 0 }, () => level + 0.8 * normal()),
);
const { stretches } = changePoints(values);

export const chart: Chart = {
  title: 'Levels found in a series that jumps',
  x: { label: 'value', unit: '1', from: 0, to: 120 },
  y: { label: 'x', unit: '1', from: 1, to: 10 },
  curves: [
    {
      label: 'levels found',
      at: stretches.flatMap(({ from, to, mean }) => [[from + 0.5, mean] as const, [to + 0.5, mean] as const]),
    },
  ],
  points: [{ label: 'values', at: values.map((value, i) => [i + 1, value]) }],
};
