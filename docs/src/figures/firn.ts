import type { Chart } from '@firnbook/drawing';
import { closeOffDensity, herronLangway } from '@firnbook/science/firn';

/** Three sites that the model was made for: a mild dome, a cold one, a dry plateau. */
const sites = [
  ['−15 °C, 0.45 m w.e./a', { temperature: 258.15, accumulation: 0.45, surfaceDensity: 370 }],
  ['−29 °C, 0.20 m w.e./a', { temperature: 244.15, accumulation: 0.2, surfaceDensity: 345 }],
  ['−54 °C, 0.03 m w.e./a', { temperature: 219.15, accumulation: 0.03, surfaceDensity: 330 }],
] as const;
const columns = sites.map(([label, site]) => ({ label, site, column: herronLangway(site) }));

export const chart: Chart = {
  title: 'Density of dry firn by Herron & Langway, with close-off by Martinerie 1994',
  x: { label: 'density', unit: 'kg/m3', from: 300, to: 920 },
  y: { label: 'depth', unit: 'm', from: 120, to: 0 },
  curves: columns.map(({ label, column }) => ({
    label,
    at: Array.from({ length: 121 }, (_, depth) => [column.density(depth), depth] as const),
  })),
  points: [
    {
      label: 'close-off',
      at: columns.map(({ site, column }) => {
        const density = closeOffDensity(site.temperature);
        return [density, column.depthOfDensity(density)] as const;
      }),
    },
  ],
};
