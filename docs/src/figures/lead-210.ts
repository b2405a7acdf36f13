import type { Chart } from '@firnbook/drawing';
import { constantFluxAccumulation, constantSupply, halfLife } from '@firnbook/science/dating';

const boundaries = [0, 2, 4, 6, 8, 10];
const concentrations = [80, 60, 42, 30, 20];
const sds = [4, 3.5, 3, 2.5, 2];
const { value, sd } = halfLife('Pb-210');
const found = constantSupply({ boundaries, concentrations, sds, tail: 36_000, tailSd: 4000 }, value, sd);
const line = constantFluxAccumulation(
  concentrations.map((concentration, i) => ({ depth: 2 * i + 1, concentration, sd: sds[i] ?? 1 })),
  value,
  sd,
);
const age = (i: number, times: number) => (found.ages[i] ?? 0) + times * (found.ageSds[i] ?? 0);

export const chart: Chart = {
  title: 'Ages by ²¹⁰Pb of five layers, by two models',
  x: { label: 'depth', unit: 'm w.e.', from: 0, to: 10 },
  y: { label: 'age', unit: 'a', from: 0, to: 110 },
  curves: [
    { label: 'constant rate of supply', at: boundaries.map((depth, i) => [depth, age(i, 0)] as const) },
    {
      label: 'constant flux and accumulation',
      dashed: true,
      at: boundaries.map((depth) => [depth, depth / line.accumulation] as const),
    },
  ],
  bands: [
    {
      label: '± 2 standard uncertainties',
      at: boundaries.map((depth, i) => [depth, age(i, -2), age(i, 2)] as const),
    },
  ],
};
