import type { Chart } from '@firnbook/drawing';
import { align } from '@firnbook/science/statistics';

/** A made record, and the same one stretched unevenly. */
const wave = (x: number): number => Math.sin(x) + 0.6 * Math.sin(2.7 * x + 1);
const samples = { first: 60, second: 72 };
const stretched = (j: number): number => samples.first * (j / samples.second) ** 1.3;
const first = Array.from({ length: samples.first }, (_, i) => wave(i / 5));
const second = Array.from({ length: samples.second }, (_, j) => wave(stretched(j) / 5));
const { path } = align(
  samples.first,
  samples.second,
  (i, j) => Math.abs((first[i] ?? Number.NaN) - (second[j] ?? Number.NaN)),
  { diagonal: 2 },
);

export const chart: Chart = {
  title: 'Path between two records',
  x: { label: 'sample of the first record', unit: '1', from: 0, to: 60 },
  y: { label: 'sample of the second record', unit: '1', from: 0, to: 72 },
  curves: [
    { label: 'found', at: path.map(([i, j]) => [i + 1, j + 1]) },
    {
      label: 'evenly from end to end',
      dashed: true,
      at: [
        [1, 1],
        [samples.first, samples.second],
      ],
    },
  ],
  points: [
    {
      label: 'as the second was made',
      at: Array.from({ length: 9 }, (_, k) => [1 + stretched(8 * k), 8 * k + 1]),
    },
  ],
};
