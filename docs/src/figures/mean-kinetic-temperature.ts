import type { Chart } from '@firnbook/drawing';
import { meanKineticTemperature } from '@firnbook/science/heat';
import { inKelvin } from '@firnbook/science/units';

const hours = Array.from({ length: 49 }, (_, i) => i);
const week = 168;

export const chart: Chart = {
  title: 'A week at -20 °C with some hours at -5 °C',
  x: { label: 'hours at -5 °C', unit: 'h', from: 0, to: 48 },
  y: { label: 'temperature', unit: '°C', from: -21, to: -4 },
  curves: [
    {
      label: 'mean kinetic temperature',
      at: hours.map(
        (hour) =>
          [
            hour,
            meanKineticTemperature([inKelvin(-20), inKelvin(-5)], [week - hour, hour]) - inKelvin(0),
          ] as const,
      ),
    },
    {
      label: 'mean',
      dashed: true,
      at: hours.map((hour) => [hour, (-20 * (week - hour) - 5 * hour) / week] as const),
    },
    {
      label: 'peak: what matters for ice',
      at: [
        [0, -20],
        [0.01, -5],
        [48, -5],
      ],
    },
  ],
};
