import type { Chart } from '@firnbook/drawing';
import { halfUnits } from '@firnbook/science/intervals';

/** Half a unit in the last place of a figure with so many decimals, metres. */
const half = (decimals: number): number => halfUnits([{ decimals, endsInZero: true }])[0] ?? 0;

/** What the sum of n lengths between two printed depths may be off by, before rounding explains it no more. */
const hidden = (depths: number, lengths: number) =>
  Array.from({ length: 60 }, (_, at) => {
    const rows = at + 1;
    return [rows, 100 * (2 * half(depths) + rows * half(lengths))] as const;
  });

export const chart: Chart = {
  title: 'What can hide in rounding: the least misfit that is reported',
  x: { label: 'lengths added up between two depths', unit: '1', from: 0, to: 60 },
  y: { label: 'least misfit', unit: 'cm', from: 0.2, to: 50, log: true },
  curves: [
    { label: 'depths to 1 cm, lengths to 1 cm', at: hidden(2, 2) },
    { label: 'depths to 1 cm, lengths to 1 mm', at: hidden(2, 3) },
    { label: 'depths to 1 mm, lengths to 1 mm', dashed: true, at: hidden(3, 3) },
  ],
};
