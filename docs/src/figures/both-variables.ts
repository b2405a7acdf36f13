import type { Chart } from '@firnbook/drawing';
import { fitStraightLine, lineBothVariables } from '@firnbook/science/statistics';

/** Pearson's points with York's weights. */
const x = [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
const deviation = (weight: number): number => 1 / Math.sqrt(weight);
const xSd = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1].map(deviation);
const ySd = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500].map(deviation);
const both = lineBothVariables(x, y, xSd, ySd);
const plain = fitStraightLine(x, y, { sd: ySd });
const ends = [-0.5, 8];

export const chart: Chart = {
  title: 'Errors in both variables, and in one',
  x: { label: 'X', unit: '1', from: -0.5, to: 8 },
  y: { label: 'Y', unit: '1', from: 0, to: 7 },
  curves: [
    { label: 'errors in both', at: ends.map((at) => [at, both.intercept + both.slope * at]) },
    { label: 'X taken for exact', dashed: true, at: ends.map((at) => [at, plain.at(at).value]) },
  ],
  points: [{ label: 'points (Pearson)', at: x.map((at, i) => [at, y[i] ?? Number.NaN]) }],
};
