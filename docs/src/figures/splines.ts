import type { Chart } from '@firnbook/drawing';
import { monotoneSpline, naturalSpline } from '@firnbook/science/statistics';

/** Steep data of Fritsch & Carlson 1980. */
const x = [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20];
const y = [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.94374, 0.998636, 0.999919, 0.999994];
const along = Array.from({ length: 241 }, (_, i) => Math.min(7.99 + (i / 240) * 12.01, 20));
const through = (curve: { readonly at: (x: number) => number }) =>
  along.map((at) => [at, curve.at(at)] as const);

export const chart: Chart = {
  title: 'A bulge, and none',
  x: { label: 'x', unit: '1', from: 7.5, to: 20 },
  y: { label: 'y', unit: '1', from: -0.2, to: 1.2 },
  curves: [
    { label: 'Steffen 1990', at: through(monotoneSpline(x, y)) },
    { label: 'natural spline', dashed: true, at: through(naturalSpline(x, y)) },
  ],
  points: [{ label: 'knots (Fritsch & Carlson 1980)', at: x.map((at, i) => [at, y[i] ?? Number.NaN]) }],
};
