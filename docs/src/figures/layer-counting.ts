import type { Chart } from '@firnbook/drawing';
import { type CountingConvention, countedAge } from '@firnbook/science/dating';

const of = (label: CountingConvention) => ({
  label,
  at: Array.from({ length: 101 }, (_, u) => [u, countedAge(1000, u, label).sd] as const),
});

export const chart: Chart = {
  title: 'Standard uncertainty of a count, by three conventions',
  x: { label: 'uncertain layers', unit: '1', from: 0, to: 100 },
  y: { label: 'standard uncertainty', unit: 'a', from: 0, to: 50 },
  curves: [of('the MCE'), of('half the MCE'), of('independent layers')],
};
