import type { Chart } from '@firnbook/drawing';
import { phOfHydrogen } from '@firnbook/science/chemistry';

const error = 0.3;
const hydrogen = Array.from({ length: 80 }, (_, i) => 0.31 * (20 / 0.31) ** (i / 79));

export const chart: Chart = {
  title: 'pH of the hydrogen ion that closes a balance',
  x: { label: 'implied hydrogen ion', unit: 'ueq/kg', from: 0.3, to: 20, log: true },
  y: { label: 'pH', unit: '1', from: 4.5, to: 7.5 },
  curves: [{ label: 'pH', at: hydrogen.map((h) => [h, phOfHydrogen(h)] as const) }],
  bands: [
    {
      label: 'give or take 0.3 µeq/kg',
      at: hydrogen.map((h) => [h, phOfHydrogen(h + error), phOfHydrogen(h - error)] as const),
    },
  ],
};
