import type { Chart } from '@firnbook/drawing';
import { agreedDeltas, twoPointScale } from '@firnbook/science/chemistry';

const readings = Array.from({ length: 106 }, (_, i) => 25 - 5 * i);
const uncertainty = (scale: 'VSMOW-SLAP' | 'VSMOW2-SLAP2', standards: number) => {
  const { upper, lower } = agreedDeltas('2H', scale);
  return readings.map((m) => {
    const found = twoPointScale(
      { value: m, sd: 0.5 },
      { agreed: upper, measured: { value: 0.8, sd: standards } },
      { agreed: lower, measured: { value: -424.9, sd: standards } },
    );
    return [found.value, found.sd] as const;
  });
};

export const chart: Chart = {
  title: 'δ²H on the scale, readings of the sample to 0.5 ‰',
  x: { label: 'δ²H', unit: '[ppth]', from: 20, to: -500 },
  y: { label: 'standard uncertainty', unit: '[ppth]', from: 0, to: 1 },
  curves: [
    { label: 'waters exact and read exactly', dashed: true, at: uncertainty('VSMOW-SLAP', 0) },
    { label: 'both waters read to 0.4 ‰', at: uncertainty('VSMOW-SLAP', 0.4) },
    { label: 'the same, VSMOW2 and SLAP2', at: uncertainty('VSMOW2-SLAP2', 0.4) },
  ],
};
