import type { Chart } from '@firnbook/drawing';
import { crustRatio, enrichmentFactor } from '@firnbook/science/chemistry';

/** Aluminium from 0.3 to 1000 ug/kg, evenly on a logarithmic axis. */
const aluminium = Array.from({ length: 60 }, (_, i) => 0.3 * (1000 / 0.3) ** (i / 59));
const factor = (lead: number) =>
  aluminium.map((al) => {
    const exact = (value: number) => ({ value, sd: 0 });
    return [al, enrichmentFactor(exact(lead / 1000), exact(al), exact(crustRatio('Pb'))).value] as const;
  });

export const chart: Chart = {
  title: 'Lead against the upper continental crust',
  x: { label: 'aluminium', unit: 'ug/kg', from: 0.3, to: 1000, log: true },
  y: { label: 'enrichment factor', unit: '1', from: 0.1, to: 1000, log: true },
  curves: [
    { label: '100 ng/kg of lead', at: factor(100) },
    { label: '25 ng/kg', at: factor(25) },
    { label: '5 ng/kg', at: factor(5) },
    {
      label: 'commonly called not enriched',
      dashed: true,
      at: [
        [0.3, 10],
        [1000, 10],
      ],
    },
  ],
};
