import type { Chart } from '@firnbook/drawing';
import { boxForecast, boxWarming, insulations } from '@firnbook/science/heat';

const box = {
  ice: 42.4,
  density: 900,
  length: 1,
  snow: { thickness: 0.05, density: 350 },
  wall: { ...insulations['EPS, 30 kg/m3'], thickness: 0.05 },
  film: 8,
};
const air = 278.15;
const { times, core, middle, edge } = boxForecast(
  box,
  248.15,
  { temperature: () => air },
  { step: 900, until: 30 * 3600 },
);
const { lumped } = boxWarming(box, 248.15, { temperature: air }, 258.15);
/** Of the lump, from the time that it takes to -15 °C. */
const constant = (lumped ?? 1) / Math.log(30 / 20);
const at = (temperatures: Float64Array) =>
  Array.from(times, (time, i) => [time / 3600, (temperatures[i] ?? 0) - 273.15] as const);

export const chart: Chart = {
  title: 'A box with 5 cm of snow and 5 cm of foam in air of +5 °C',
  x: { label: 'time', unit: 'h', from: 0, to: 30 },
  y: { label: 'temperature', unit: '°C', from: -26, to: 0 },
  curves: [
    { label: 'outside of the packing', at: at(edge) },
    { label: 'outside of the core', at: at(core) },
    { label: 'middle of the core', at: at(middle) },
    {
      label: 'everything as one lump',
      dashed: true,
      at: Array.from(times, (time) => [time / 3600, 5 - 30 * Math.exp(-time / constant)] as const),
    },
    {
      label: 'limit',
      dashed: true,
      at: [
        [0, -15],
        [30, -15],
      ],
    },
  ],
};
