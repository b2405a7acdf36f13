import type { Chart } from '@firnbook/drawing';
import { meltShare } from '@firnbook/science/firn';

/** Percent by mass of a metre of core with so many millimetres of melt layers of 890 kg/m3 in it. */
const byMass = (bulk: number) =>
  Array.from({ length: 41 }, (_, i) => {
    const thickness = 0.01 * i;
    const layers =
      i === 0 ? [] : [{ top: 0.2, bottom: 0.2 + thickness, density: 890, thicknessSd: 0, densitySd: 0 }];
    return [
      100 * thickness,
      meltShare(layers, { from: 0, to: 1 }, { value: bulk, sd: 0 }).byMass.value,
    ] as const;
  });

export const chart: Chart = {
  title: 'The same melt layers by length and by mass',
  x: { label: 'melt layers by length', unit: '%', from: 0, to: 40 },
  y: { label: 'by mass', unit: '%', from: 0, to: 80 },
  curves: [
    ...[450, 620, 850].map((bulk) => ({ label: `mean density ${bulk} kg/m³`, at: byMass(bulk) })),
    {
      label: 'by length',
      dashed: true as const,
      at: [
        [0, 0],
        [40, 40],
      ],
    },
  ],
};
