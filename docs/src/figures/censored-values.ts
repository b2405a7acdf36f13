import type { Chart } from '@firnbook/drawing';
import { censoredLikelihood, kaplanMeier, orderStatistics, readCensored } from '@firnbook/science/chemistry';
import { normalBelow } from '@firnbook/science/statistics';

const lead = readCensored('<1 1.2 <1 3.4 2.2 <2 <2 5.1 1.6 <1 2.9 0.7 <2 1.1 0.9 4.0 <1 1.9 7.3 1.4');
const { mu, sigma } = censoredLikelihood(lead);
const values = Array.from({ length: 100 }, (_, i) => 0.2 * 50 ** (i / 99));
const { positions } = orderStatistics(lead);
const place = (censored: boolean) =>
  positions.flatMap(({ below, share, value }) => (below === censored ? [[value, share] as const] : []));

export const chart: Chart = {
  title: 'Twenty contents of lead, seven below 1 or 2 ng/kg',
  x: { label: 'lead', unit: 'ng/kg', from: 0.2, to: 10, log: true },
  y: { label: 'share below', unit: '1', from: 0, to: 1 },
  curves: [
    {
      label: 'Kaplan-Meier',
      // from the largest value down: across at F, then down to F below the value
      at: [
        [10, 1],
        ...kaplanMeier(lead).steps.flatMap(({ value, upTo, below }) => [
          [value, upTo] as const,
          [value, below] as const,
        ]),
      ],
    },
    {
      label: 'likelihood, lognormal',
      dashed: true,
      at: values.map((x) => [x, normalBelow((Math.log(x) - mu.value) / sigma.value)] as const),
    },
  ],
  points: [
    { label: 'detected, plotting position', at: place(false) },
    { label: 'nondetects by the regression', at: place(true) },
  ],
};
