import type { Chart } from '@firnbook/drawing';
import { seeded } from '@firnbook/science/random';

const { uniform } = seeded(1);

export const chart: Chart = {
  title: 'Neighbouring draws of one stream',
  x: { label: 'draw', unit: '1', from: 0, to: 1 },
  y: { label: 'next draw', unit: '1', from: 0, to: 1 },
  curves: [],
  points: [{ label: 'pairs of draws', at: Array.from({ length: 200 }, () => [uniform(), uniform()]) }],
};
