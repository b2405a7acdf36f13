import type { Chart } from '@firnbook/drawing';
import { nonSeaSalt, seaSaltRatio } from '@firnbook/science/chemistry';

const steps = Array.from({ length: 81 }, (_, i) => 5 * i);
const sulphate = { value: 85, sd: 4 };
const part = (sodium: number, salt: 'Millero 2008' | 'mirabilite lost') =>
  nonSeaSalt(sulphate, { value: sodium, sd: 0.05 * sodium }, seaSaltRatio('SO4', 'Na', 'g/g', salt))
    .nonSeaSalt;
const line = (salt: 'Millero 2008' | 'mirabilite lost') =>
  steps.map((sodium) => [sodium, part(sodium, salt).value] as const);
const band = (salt: 'Millero 2008' | 'mirabilite lost') =>
  steps.map((sodium) => {
    const { value, sd } = part(sodium, salt);
    return [sodium, value - 2 * sd, value + 2 * sd] as const;
  });

export const chart: Chart = {
  title: 'Non-sea-salt part of 85(4) µg/kg of sulphate',
  x: { label: 'sodium', unit: 'ug/kg', from: 0, to: 400 },
  y: { label: 'non-sea-salt sulphate', unit: 'ug/kg', from: -40, to: 100 },
  curves: [
    { label: 'sea water', at: line('Millero 2008') },
    { label: 'mirabilite lost', dashed: true, at: line('mirabilite lost') },
  ],
  bands: [
    { label: 'sea water, 2 u', at: band('Millero 2008') },
    { label: 'mirabilite lost, 2 u', at: band('mirabilite lost') },
  ],
};
