import type { Constants } from './constant.ts';

/**
 * How long "a year" is, by who says so, besides the Julian year of `universal`. A calendar year has 365 or 366 days and
 * is none of these.
 */
export const years = {
  'UCUM a_t': {
    symbol: 'a_t',
    what: 'tropical year of UCUM',
    value: 365.24219,
    sd: 0,
    unit: 'd',
    source: 'UCUM 2.2, ucum-essence.xml; digits from memory',
    seen: 'from memory',
  },
  'UCUM a_g': {
    symbol: 'a_g',
    what: 'mean Gregorian year of UCUM: 146,097 days in 400 years',
    value: 365.2425,
    sd: 0,
    unit: 'd',
    source: 'UCUM 2.2, ucum-essence.xml; follows from the calendar',
    seen: 'computed',
  },
  'UDUNITS year': {
    symbol: 'year',
    what: 'year of UDUNITS, hence of CF times in "years since", which CF recommends to avoid',
    value: 365.242198781,
    sd: 0,
    unit: 'd',
    source: 'CF conventions 1.13, section on time',
    seen: 'read',
  },
  'NUBASE y': {
    symbol: 'y',
    what: 'tropical year of tables of half-lives',
    value: 365.2422,
    sd: 0,
    unit: 'd',
    source: 'NUBASE2020',
    seen: 'from memory',
  },
} as const satisfies Constants;
