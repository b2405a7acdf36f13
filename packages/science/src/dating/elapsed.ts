import type { Years } from '../units.ts';
import { type CalendarDay, dayNumber } from './dates.ts';
import { daysOfYearNamed, type YearName } from './year-length.ts';

/**
 * Time from one day to another in years of a named length; negative where the second is the earlier.
 *
 * Days are counted, so that 62 calendar years are 62.00 a only where leap days happen to fit.
 *
 * Source: counting; lengths of years as `daysOfYearNamed` has them.
 */
export const elapsedYears = (from: CalendarDay, to: CalendarDay, year: YearName = 'UCUM a'): Years =>
  (dayNumber(to) - dayNumber(from)) / daysOfYearNamed(year);
