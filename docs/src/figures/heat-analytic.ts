import type { Chart } from '@firnbook/drawing';
import { cylinder, diffusivity, lumped, transient } from '@firnbook/science/heat';

const [k, density, heatCapacity, radius, film] = [2.32, 917, 1950, 0.05, 8];
const [start, air] = [-25, -5];
const alpha = diffusivity(k, density, heatCapacity);
const body = lumped({
  mass: density * Math.PI * radius ** 2,
  heatCapacity,
  conductance: film * 2 * Math.PI * radius,
});
const minutes = Array.from({ length: 61 }, (_, i) => 2 * i);
const at = (share: (seconds: number) => number) =>
  minutes.map((minute) => [minute, air + (start - air) * share(60 * minute)] as const);
const series = (seconds: number) => transient(cylinder, (film * radius) / k, (alpha * seconds) / radius ** 2);

export const chart: Chart = {
  title: 'A bare core of 100 mm, -25 °C, in air of -5 °C (8 W/m²/K)',
  x: { label: 'time in the air', unit: 'min', from: 0, to: 120 },
  y: { label: 'temperature', unit: '°C', from: -26, to: -8 },
  curves: [
    { label: 'surface', at: at((seconds) => series(seconds).surface) },
    { label: 'middle', at: at((seconds) => series(seconds).centre) },
    { label: 'as one lump', dashed: true, at: at(body.left) },
  ],
  points: [
    {
      label: 'middle, recomputed with SciPy',
      at: [
        [10, -23.7893],
        [30, -20.3037],
        [60, -16.2398],
        [120, -11.063],
      ],
    },
  ],
};
