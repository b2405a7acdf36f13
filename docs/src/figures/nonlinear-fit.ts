import type { Chart } from '@firnbook/drawing';
import { fitNonlinear, saturating } from '@firnbook/science/statistics';

/** NIST/ITL StRD, BoxBOD. */
const days = [1, 2, 3, 5, 7, 10];
const demand = [109, 149, 149, 191, 213, 224];
const start = [1, 1];
const { coefficients } = fitNonlinear(saturating, days, demand, start);
const along = Array.from({ length: 101 }, (_, i) => i / 10);

export const chart: Chart = {
  title: 'Growth towards an end, fitted',
  x: { label: 'time', unit: 'd', from: 0, to: 10 },
  y: { label: 'oxygen demand', unit: 'mg/l', from: 0, to: 250 },
  curves: [
    { label: 'fitted', at: along.map((x) => [x, saturating.value(coefficients, x)]) },
    { label: 'start', dashed: true, at: along.map((x) => [x, saturating.value(start, x)]) },
  ],
  points: [{ label: 'readings (NIST StRD, BoxBOD)', at: days.map((x, i) => [x, demand[i] ?? Number.NaN]) }],
};
