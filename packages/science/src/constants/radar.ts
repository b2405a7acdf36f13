import type { Constants } from './constant.ts';

/** Speed of radio waves in firn and ice. */
export const radarConstants = {
  kovacsSlope: {
    symbol: 'k',
    what: 'growth of the refractive index with density',
    value: 0.845e-3,
    sd: null,
    unit: 'm3/kg',
    source:
      'Kovacs, Gow & Morey 1995, Cold Reg. Sci. Technol. 23, 245-256, doi:10.1016/0165-232X(94)00016-Q (as public files quote it)',
    seen: 'read',
  },
  robinSpeed: {
    symbol: 'v_i',
    what: 'speed in pure ice at −20 °C, measured in a borehole',
    value: 167.7,
    sd: 0.3,
    unit: 'm/us',
    source: 'Robin 1975, J. Glaciol. 15, doi:10.1017/S0022143000034341, abstract',
    seen: 'read',
  },
  speedScatter: {
    symbol: 's_v',
    what: 'relative scatter of published speeds in ice, taken as a standard uncertainty',
    value: 0.01,
    sd: null,
    unit: '1',
    source: 'Fujita et al. 2000 (review: 168.0 to 169.5 m/µs, about 1 %), abstract',
    seen: 'read',
  },
  usualSpeed: {
    symbol: 'v_i',
    what: 'speed in ice that reductions commonly take',
    value: 168,
    sd: null,
    unit: 'm/us',
    source: 'common practice, no source; lower end of the review Fujita et al. 2000',
    seen: 'from memory',
  },
} as const satisfies Constants;
