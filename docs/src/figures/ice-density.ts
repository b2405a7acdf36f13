import type { Chart } from '@firnbook/drawing';
import { iceDensity, iceDensityAll } from '@firnbook/science/ice';
import { inKelvin } from '@firnbook/science/units';

const celsius = Array.from({ length: 61 }, (_, i) => -60 + i);
const densities = new Float64Array(celsius.length);
iceDensityAll(Float64Array.from(celsius, inKelvin), densities);

export const chart: Chart = {
  title: 'Density of ice without bubbles',
  x: { label: 'temperature', unit: '°C', from: -60, to: 0 },
  y: { label: 'density', unit: 'kg/m³', from: 916, to: 928 },
  curves: [
    { label: '1 atm', at: celsius.map((t, i) => [t, densities[i] ?? 0] as const) },
    {
      label: '10 MPa, under some 1,100 m of ice',
      dashed: true,
      at: celsius.filter((t) => t < 0).map((t) => [t, iceDensity(inKelvin(t), 10e6)] as const),
    },
    {
      label: '917, by convention',
      dashed: true,
      at: [
        [-60, 917],
        [0, 917],
      ],
    },
  ],
  points: [
    {
      label: 'reference code of TEOS-10 (gsw 3.6.16), 1 atm',
      at: [
        [-60, 924.6586],
        [-50, 923.4674],
        [-40, 922.2192],
        [-30, 920.9174],
        [-20, 919.5652],
        [-10, 918.1658],
        [0, 916.7218],
      ],
    },
  ],
};
