import type { Chart } from '@firnbook/drawing';
import { effectivePairs, effectiveValues } from '@firnbook/science/statistics';

const memories = Array.from({ length: 96 }, (_, i) => i / 100);

export const chart: Chart = {
  title: 'What a hundred values are worth',
  x: { label: 'autocorrelation at lag 1', unit: '1', from: 0, to: 0.95 },
  y: { label: 'effective number', unit: '1', from: 0, to: 100 },
  curves: [
    { label: 'pairs, both series of this memory', at: memories.map((a) => [a, effectivePairs(100, a, a)]) },
    {
      label: 'pairs, the other series at 0.5',
      dashed: true,
      at: memories.map((a) => [a, effectivePairs(100, a, 0.5)]),
    },
    { label: 'values, for the mean of one series', at: memories.map((a) => [a, effectiveValues(100, a)]) },
  ],
};
