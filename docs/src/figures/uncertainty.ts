import type { Chart } from '@firnbook/drawing';
import { seeded } from '@firnbook/science/random';
import { normalDensity } from '@firnbook/science/statistics';

const trials = 200_000;
const width = 0.2;
const from = -6;
const bins = 60;

/** Sum of four rectangles of standard uncertainty 1 each (JCGM 101:2008, 9.2.3), as a share per unit. */
const drawn = (() => {
  const { uniform } = seeded(1);
  const counts = new Array<number>(bins).fill(0);
  for (let i = 0; i < trials; i++) {
    let sum = 0;
    for (let k = 0; k < 4; k++) sum += Math.sqrt(12) * (uniform() - 0.5);
    const bin = Math.floor((sum - from) / width);
    if (bin >= 0 && bin < bins) counts[bin] = (counts[bin] ?? 0) + 1;
  }
  return counts.map((count, bin) => [from + (bin + 0.5) * width, count / trials / width] as const);
})();

export const chart: Chart = {
  title: 'Sum of four rectangles: no tails beyond 6.9',
  x: { label: 'sum', unit: '1', from: -6, to: 6 },
  y: { label: 'density', unit: '1', from: 0, to: 0.22 },
  curves: [
    { label: 'drawn', at: drawn },
    {
      label: 'normal, same standard uncertainty',
      dashed: true,
      at: Array.from({ length: 121 }, (_, i) => [from + i / 10, normalDensity((from + i / 10) / 2) / 2]),
    },
  ],
};
