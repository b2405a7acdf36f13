import type { Chart } from '@firnbook/drawing';
import { iceSpeed, speedInFirn } from '@firnbook/science/radar';

const densities = Array.from({ length: 63 }, (_, i) => 300 + 10 * i);
const robin = iceSpeed('Robin 1975');

export const chart: Chart = {
  title: 'Speed of radio waves in dry firn and ice',
  x: { label: 'density', unit: 'kg/m3', from: 300, to: 950 },
  y: { label: 'speed', unit: 'm/us', from: 160, to: 245 },
  curves: [
    {
      label: 'Kovacs, Gow & Morey 1995',
      at: densities.map((density) => [density, speedInFirn(density) / 1e6] as const),
    },
  ],
  points: [{ label: 'measured in ice, Robin 1975', at: [[917, robin.value / 1e6]] }],
  bands: [
    {
      label: '± 1 %',
      at: densities.map((density) => {
        const speed = speedInFirn(density) / 1e6;
        return [density, 0.99 * speed, 1.01 * speed] as const;
      }),
    },
  ],
};
