import type { Chart } from '@firnbook/drawing';
import { cylinderDensity, defaultDensityAssumptions } from '@firnbook/science/density';

const { massSd, diameterSd, sharedDiameterSd, brokenEndSd } = defaultDensityAssumptions;
const none = { sawnOff: 0, sawnOffSd: 0, missing: 0, missingSd: 0 };
const diameter = 0.098;
const density = 620;

/** Standard uncertainty of the density of a piece with two broken ends, all of it or by one kind of reading. */
const of = (reading: 'all' | 'mass' | 'diameter' | 'length') =>
  Array.from({ length: 46 }, (_, i) => {
    const length = 0.1 + 0.02 * i;
    const counts = (name: typeof reading, sd: number) => (reading === 'all' || reading === name ? sd : 0);
    const found = cylinderDensity({
      mass: (density * Math.PI * diameter ** 2 * length) / 4,
      massSd: counts('mass', massSd),
      length,
      lengthSd: counts('length', Math.SQRT2 * brokenEndSd),
      diameter,
      diameterSd: counts('diameter', diameterSd),
      sharedDiameterSd: counts('diameter', sharedDiameterSd),
      ...none,
    }).density;
    return [length, Math.hypot(found.randomSd, found.sharedSd)] as const;
  });

export const chart: Chart = {
  title: 'What makes the uncertainty of a density of 620 kg/m³, 98 mm across',
  x: { label: 'length of the piece', unit: 'm', from: 0.1, to: 1 },
  y: { label: 'standard uncertainty', unit: 'kg/m3', from: 0, to: 20 },
  curves: [
    { label: 'all', at: of('all') },
    { label: 'diameter', dashed: true, at: of('diameter') },
    { label: 'length', dashed: true, at: of('length') },
    { label: 'mass', dashed: true, at: of('mass') },
  ],
};
