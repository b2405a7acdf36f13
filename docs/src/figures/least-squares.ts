import type { Chart } from '@firnbook/drawing';
import { fitStraightLine } from '@firnbook/science/statistics';

/** Calibration of a thermometer: JCGM 100:2008, H.3. */
const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
const line = fitStraightLine(t, b, { origin: 20 });
const along = Array.from({ length: 61 }, (_, i) => 18 + 0.2 * i);

export const chart: Chart = {
  title: 'A straight line and what is known of it',
  x: { label: 'temperature', unit: 'Cel', from: 18, to: 30 },
  y: { label: 'correction', unit: 'K', from: -0.19, to: -0.13 },
  curves: [{ label: 'line', at: along.map((x) => [x, line.at(x).value]) }],
  bands: [
    {
      label: 'two standard deviations of the line',
      at: along.map((x) => [x, line.at(x).value - 2 * line.at(x).sd, line.at(x).value + 2 * line.at(x).sd]),
    },
  ],
  points: [{ label: 'readings (GUM, H.3)', at: t.map((x, i) => [x, b[i] ?? Number.NaN]) }],
};
