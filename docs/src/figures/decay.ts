import type { Chart } from '@firnbook/drawing';
import { decayed, halfLife } from '@firnbook/science/dating';

const of = (nuclide: string) => {
  const { value } = halfLife(nuclide);
  return {
    label: nuclide,
    at: Array.from({ length: 101 }, (_, years) => [years, decayed(100, years, value)] as const),
  };
};

export const chart: Chart = {
  title: 'What is left of an activity (half-lives of NUBASE2020)',
  x: { label: 'time since deposition', unit: 'a', from: 0, to: 100 },
  y: { label: 'left', unit: '%', from: 0.3, to: 100, log: true },
  curves: ['Cs-137', 'Sr-90', 'Pb-210', 'H-3'].map(of),
};
