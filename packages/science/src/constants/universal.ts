import type { Constants } from './constant.ts';

const si = 'SI brochure, 9th edition (2019), section 2';

/** Constants of physics and of the calendar. */
export const universal = {
  gasConstant: {
    symbol: 'R',
    what: 'molar gas constant',
    value: 8.31446261815324,
    sd: 0,
    unit: 'J/mol/K',
    source: `${si}: Boltzmann's times Avogadro's constant, both exact`,
    seen: 'from memory',
  },
  lightSpeed: {
    symbol: 'c',
    what: 'speed of light in vacuum',
    value: 299792458,
    sd: 0,
    unit: 'm/s',
    source: si,
    seen: 'from memory',
  },
  standardGravity: {
    symbol: 'g',
    what: 'standard acceleration of gravity',
    value: 9.80665,
    sd: 0,
    unit: 'm/s2',
    source: '3rd General Conference on Weights and Measures 1901, declaration',
    seen: 'from memory',
  },
  iceDensityConvention: {
    symbol: 'ρ_i',
    what: 'density of ice that models of the trade use (0.28 % low at -20 degrees Celsius)',
    value: 917,
    sd: null,
    unit: 'kg/m3',
    source: 'common practice, no source; compare IAPWS R10-06',
    seen: 'from memory',
  },
  julianYear: {
    symbol: 'a',
    what: 'year of 365.25 days, the a of UCUM',
    value: 31_557_600,
    sd: 0,
    unit: 's',
    source: 'UCUM 2.2, ucum-essence.xml, a_j',
    seen: 'read',
  },
} as const satisfies Constants;
