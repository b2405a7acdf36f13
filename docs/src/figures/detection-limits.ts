import type { Chart } from '@firnbook/drawing';
import { currieLimits, poissonLimits } from '@firnbook/science/chemistry';

type Known = 'paired' | 'well known';
const blanks = Array.from({ length: 60 }, (_, i) => 0.3 * (400 / 0.3) ** (i / 59));
const line = (known: Known) => blanks.map((blank) => [blank, currieLimits(blank, known).detection] as const);
const exact = (known: Known) =>
  [1, 2, 3, 4, 5, 7, 10, 15, 20, 30, 50, 80, 120, 200, 300].map(
    (blank) => [blank, poissonLimits(blank, known).detection] as const,
  );

export const chart: Chart = {
  title: 'Net counts that are found 95 times in 100',
  x: { label: 'counts of the blank', unit: '1', from: 0.3, to: 400, log: true },
  y: { label: 'detection limit', unit: '1', from: 3, to: 150, log: true },
  curves: [
    { label: 'paired blank, Currie', at: line('paired') },
    { label: 'well-known blank, Currie', dashed: true, at: line('well known') },
  ],
  points: [
    { label: 'paired, exact', at: exact('paired') },
    { label: 'well known, exact', at: exact('well known') },
  ],
};
