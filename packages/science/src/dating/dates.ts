import { QuantityError } from '../quantity-error.ts';

/** A day of the proleptic Gregorian calendar; the year is astronomical (0 is 1 BCE), as ISO 8601 has it. */
export interface CalendarDay {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

const where = 'calendar date';
const daysBefore = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334] as const;

const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
/** Days of a calendar year. */
export const daysInYear = (year: number): 365 | 366 => (isLeap(year) ? 366 : 365);

const daysInMonth = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;

/** 1 for the first of January. */
export const dayOfYear = ({ year, month, day }: CalendarDay): number =>
  daysBefore[month - 1]! + day + (month > 2 && isLeap(year) ? 1 : 0);

/** Days from 1 January of year 1 (which is 1), a Monday. */
export const dayNumber = (date: CalendarDay): number => {
  const before = date.year - 1;
  return (
    365 * before +
    Math.floor(before / 4) -
    Math.floor(before / 100) +
    Math.floor(before / 400) +
    dayOfYear(date)
  );
};

/** Midnight at the beginning of the day, as a fraction of its calendar year of 365 or 366 days. By definition. */
export const decimalYear = (date: CalendarDay): number =>
  date.year + (dayOfYear(date) - 1) / daysInYear(date.year);

/** The day that a decimal year lies in. @throws QuantityError for a year outside -9999 to 9999 */
export const dayOfDecimalYear = (decimal: number): CalendarDay => {
  if (!(Math.abs(decimal) < 10_000))
    throw new QuantityError(where, `the decimal year is ${decimal}`, '-9999 to 9999');
  const year = Math.floor(decimal);
  // a ten-thousandth of a day up: what was rounded to seven decimals is meant to be midnight, not the day before
  const ordinal = 1 + Math.floor((decimal - year) * daysInYear(year) + 1e-4);
  return dayOfOrdinal(year, Math.min(ordinal, daysInYear(year)));
};

const dayOfOrdinal = (year: number, ordinal: number): CalendarDay => {
  let month = 12;
  while (dayOfYear({ year, month, day: 1 }) > ordinal) month -= 1;
  return { year, month, day: ordinal - dayOfYear({ year, month, day: 1 }) + 1 };
};

/** Monday of week 1: the week that holds 4 January (ISO 8601). */
const firstMonday = (year: number): number => {
  const fourth = dayNumber({ year, month: 1, day: 4 });
  return fourth - ((((fourth - 1) % 7) + 7) % 7);
};

/** Week date by ISO 8601: the year may be the one before or after; weekday 1 is Monday. */
export const isoWeek = (
  date: CalendarDay,
): { readonly year: number; readonly week: number; readonly weekday: number } => {
  const number = dayNumber(date);
  const year = [date.year + 1, date.year, date.year - 1].find((one) => firstMonday(one) <= number)!;
  const since = number - firstMonday(year);
  return { year, week: 1 + Math.floor(since / 7), weekday: 1 + (since % 7) };
};

const padded = (n: number, length: number) =>
  n < 0 ? `-${String(-n).padStart(length, '0')}` : String(n).padStart(length, '0');

/** `1986-04-26` */
export const writtenDate = ({ year, month, day }: CalendarDay): string =>
  `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
/** `1986-116` */
export const writtenOrdinal = (date: CalendarDay): string =>
  `${padded(date.year, 4)}-${padded(dayOfYear(date), 3)}`;
/** `1986-W17-6` */
export const writtenWeek = (date: CalendarDay): string => {
  const { year, week, weekday } = isoWeek(date);
  return `${padded(year, 4)}-W${padded(week, 2)}-${weekday}`;
};

/**
 * Reads a date by ISO 8601: `1986-04-26`, `1986-116` or `1986-W17-6`; years before 0 with a sign.
 *
 * Source: ISO 8601 (from memory; week and ordinal dates checked against an independent implementation).
 *
 * @throws QuantityError for other writings and for days that there are not
 */
export const readDate = (text: string): CalendarDay => {
  const [, yearText = '', month, day, ordinal, week, weekday] =
    /^([+-]?\d{4})-(?:(\d{2})-(\d{2})|(\d{3})|W(\d{2})-([1-7]))$/.exec(text.trim()) ?? [];
  const year = Number(yearText);
  const refuse = (what: string): never => {
    throw new QuantityError(where, what, 'for example 1986-04-26, 1986-116 or 1986-W17-6');
  };
  if (yearText === '') return refuse(`"${text}" is no date`);
  if (ordinal !== undefined) {
    if (Number(ordinal) < 1 || Number(ordinal) > daysInYear(year))
      return refuse(`${year} has no day ${ordinal}`);
    return dayOfOrdinal(year, Number(ordinal));
  }
  if (week !== undefined) {
    const number = firstMonday(year) + 7 * (Number(week) - 1) + Number(weekday) - 1;
    if (week === '00' || number >= firstMonday(year + 1)) return refuse(`${year} has no week ${week}`);
    const inYear = number - dayNumber({ year, month: 1, day: 1 }) + 1;
    if (inYear < 1) return dayOfOrdinal(year - 1, inYear + daysInYear(year - 1));
    if (inYear > daysInYear(year)) return dayOfOrdinal(year + 1, inYear - daysInYear(year));
    return dayOfOrdinal(year, inYear);
  }
  const date = { year, month: Number(month), day: Number(day) };
  if (date.month < 1 || date.month > 12 || date.day < 1 || date.day > daysInMonth(year, date.month))
    return refuse(`there is no day "${text}"`);
  return date;
};
