import type { Chart } from '@firnbook/drawing';
import { calibrationLine, inverseCalibration } from '@firnbook/science/chemistry';

const standards = { contents: [0, 1, 2, 5, 10], readings: [0.02, 1.05, 2.01, 5.1, 9.95] };
const line = calibrationLine(standards);
const contents = Array.from({ length: 66 }, (_, i) => 0.2 * i);
const uncertainty = (replicates: number) =>
  contents.map((content) => {
    const mean = line.intercept.value + line.slope.value * content;
    return [content, inverseCalibration(line, { mean, replicates }).sd] as const;
  });

export const chart: Chart = {
  title: 'Five standards from 0 to 10 µg/kg',
  x: { label: 'content of the sample', unit: 'ug/kg', from: 0, to: 13 },
  y: { label: 'standard uncertainty', unit: 'ug/kg', from: 0, to: 0.1 },
  curves: [
    { label: 'one reading', at: uncertainty(1) },
    { label: 'three readings', at: uncertainty(3) },
    { label: 'ten readings', at: uncertainty(10) },
    {
      label: 'last standard',
      dashed: true,
      at: [
        [10, 0],
        [10, 0.1],
      ],
    },
  ],
};
