import { constants } from '@firnbook/science/constants';
import {
  closureRate,
  creepParameter,
  diameterAfter,
  glenStrainRate,
  overburden,
  timeToLose,
} from '@firnbook/science/mechanics';
import { inKelvin } from '@firnbook/science/units';
import type { Section } from './evaluator.ts';

const day = 86_400;

export const section: Section = {
  section: '05_creep',
  evaluators: [
    {
      ids: /^glenA\.table@/,
      compute: ({ t_C }) => creepParameter(inKelvin(t_C as number), 'Cuffey & Paterson 2010, table'),
    },
    {
      // its T_K are the book's, where 0 degrees C is 273 K
      ids: /^glenA\.eq@/,
      compute: ({ t_C }) => creepParameter(inKelvin(t_C as number), 'Cuffey & Paterson 2010, equation'),
    },
    {
      ids: /^closure\./,
      compute: (inputs) => {
        const { A, depth_m, rho, g, D0_mm, days } = inputs as Record<string, number>;
        const excess = overburden(rho, depth_m, g);
        const rate = closureRate(A, excess);
        const seconds = timeToLose(D0_mm / 1000, 0.002, rate);
        return {
          dp_Pa: excess,
          rate_per_s: rate,
          D_mm: 1000 * diameterAfter(D0_mm / 1000, rate, days * day),
          days_to_lose_2mm: seconds === null ? null : seconds / day,
        };
      },
    },
    {
      ids: /^glen\./,
      compute: (inputs) => {
        const { A, tau_Pa } = inputs as Record<string, number>;
        return glenStrainRate(A, tau_Pa) * constants.universal!.julianYear!.value;
      },
    },
  ],
  not: [],
};
