import { universal } from '../constants/universal.ts';
import { years } from '../constants/years.ts';

/** Years of fixed length, by who says so; a calendar year is none of them. */
export const yearNames = ['UCUM a', 'UCUM a_t', 'UCUM a_g', 'UDUNITS year', 'NUBASE y'] as const;
export type YearName = (typeof yearNames)[number];

/** Days of a year of that name: 365.25 for the a of UCUM, in which elapsed times count here; sources: `constants/years.ts`. */
export const daysOfYearNamed = (name: YearName): number =>
  name === 'UCUM a' ? universal.julianYear.value / 86_400 : years[name].value;
