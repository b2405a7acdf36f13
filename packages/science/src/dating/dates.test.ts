import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  dayNumber,
  dayOfDecimalYear,
  daysInYear,
  decimalYear,
  isoWeek,
  readDate,
  writtenDate,
  writtenOrdinal,
  writtenWeek,
} from './dates.ts';

/** Days of four centuries and more, also before year 1. */
const days = fc
  .integer({ min: -3000, max: 9990 })
  .chain((year) => fc.integer({ min: 1, max: daysInYear(year) }).map((ordinal) => ({ year, ordinal })))
  .map(({ year, ordinal }) =>
    readDate(
      `${year < 0 ? '-' : ''}${String(Math.abs(year)).padStart(4, '0')}-${String(ordinal).padStart(3, '0')}`,
    ),
  );

describe('dates', () => {
  // ISO 8601 ordinal and week dates, computed with an independent implementation
  it.each([
    ['1986-04-26', 1986.3150685, '1986-116', '1986-W17-6'],
    ['1963-07-01', 1963.4958904, '1963-182', '1963-W27-1'],
    ['1954-03-01', 1954.1616438, '1954-060', '1954-W09-1'],
    ['1783-06-08', 1783.4328767, '1783-159', '1783-W23-7'],
    ['1600-02-19', 1600.1338798, '1600-050', '1600-W07-6'],
    ['2024-02-29', 2024.1612022, '2024-060', '2024-W09-4'],
    ['2025-12-29', 2025.9917808, '2025-363', '2026-W01-1'],
    ['2027-01-03', 2027.0054795, '2027-003', '2026-W53-7'],
    ['2020-12-31', 2020.9972678, '2020-366', '2020-W53-4'],
  ])('%s is %d, %s, %s', (text, decimal, ordinal, week) => {
    const date = readDate(text);
    expect(decimalYear(date)).toBeCloseTo(decimal, 7);
    expect(writtenOrdinal(date)).toBe(ordinal);
    expect(writtenWeek(date)).toBe(week);
    for (const written of [text, ordinal, week]) expect(writtenDate(readDate(written))).toBe(text);
    expect(writtenDate(dayOfDecimalYear(decimal))).toBe(text);
  });

  it('read back what they write, in all three writings and as decimal year', () =>
    fc.assert(
      fc.property(days, (date) => {
        for (const written of [writtenDate, writtenOrdinal, writtenWeek])
          expect(readDate(written(date))).toEqual(date);
        expect(dayOfDecimalYear(decimalYear(date))).toEqual(date);
      }),
    ));

  it('count days as the calendar of the machine does (proleptic Gregorian)', () =>
    fc.assert(
      fc.property(days, (date) => {
        const stamp = new Date(Date.UTC(2000, 0, 1));
        stamp.setUTCFullYear(date.year, date.month - 1, date.day);
        // 1 January of year 1 is day 1, 1970-01-01 day 719,163
        expect(dayNumber(date)).toBe(stamp.getTime() / 86_400_000 + 719_163);
        expect(isoWeek(date).weekday % 7).toBe(stamp.getUTCDay());
      }),
    ));

  it('refuse days that there are not, and other writings', () => {
    for (const text of ['2023-02-29', '1900-02-29', '2026-13-01', '2026-00-10', '2026-04-31', '2026-04-00'])
      expect(() => readDate(text)).toThrow(/there is no day/);
    expect(() => readDate('2023-366')).toThrow(/2023 has no day 366/);
    expect(() => readDate('2023-000')).toThrow(/no day 000/);
    expect(() => readDate('2025-W53-1')).toThrow(/2025 has no week 53/);
    expect(() => readDate('2025-W00-1')).toThrow(/no week 00/);
    for (const text of ['26.4.1986', '1986-4-26', '', '1986', '1986-04-26T12:00'])
      expect(() => readDate(text)).toThrow(/is no date; allowed: for example 1986-04-26/);
    for (const year of [Number.NaN, 10_000, Number.NEGATIVE_INFINITY])
      expect(() => dayOfDecimalYear(year)).toThrow(/the decimal year is/);
  });
});
