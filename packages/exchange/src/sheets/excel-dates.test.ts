import { describe, expect, it } from 'vitest';
import { dateOfSerial, shownAs } from './excel-dates.ts';

describe('dateOfSerial', () => {
  // ECMA-376 part 1 (5th edition, 2016), 18.17.4.1 (read from memory): the 1900 system's serial 1 is 1 January 1900, and it holds a 29
  // February 1900; the last day is 31 December 9999, serial 2,958,465. In the 1904 system serial 0 is 1 January 1904.
  it.each([
    [1, 1900, '1900-01-01'],
    [59, 1900, '1900-02-28'],
    [61, 1900, '1900-03-01'],
    [2_958_465, 1900, '9999-12-31'],
    [0, 1904, '1904-01-01'],
    [1, 1904, '1904-01-02'],
    // 46,187 days: counted with the platform's own calendar below
    [46_187, 1900, '2026-06-14'],
    [46_187 - 1_462, 1904, '2026-06-14'],
  ] as const)('%d in the %d system is %s', (serial, system, text) => {
    expect(dateOfSerial(serial, system)).toEqual({ as: 'date', text });
  });

  it('every day from March 1900 to 2100 is the one that the calendar counts', () => {
    for (let serial = 61; serial < 73_415; serial += 17) {
      const day = new Date(Date.UTC(1899, 11, 30) + serial * 86_400_000).toISOString().slice(0, 10);
      expect(dateOfSerial(serial, 1900)?.text).toBe(day);
    }
  });

  it('gives the time to the second, and a time alone for less than a day', () => {
    expect(dateOfSerial(46_187 + 8.5 / 24, 1900)).toEqual({ as: 'date', text: '2026-06-14T08:30:00' });
    expect(dateOfSerial(0.604_166_666_666_666_7, 1900)).toEqual({ as: 'time', text: '14:30:00' });
    expect(dateOfSerial(46_186.999_999_9, 1900)).toEqual({ as: 'date', text: '2026-06-14' });
  });

  it('the day that never was, negative ones and those after 9999 are no days', () => {
    for (const serial of [60, -1, 2_958_466, Number.NaN, Number.POSITIVE_INFINITY])
      expect(dateOfSerial(serial, 1900)).toBeNull();
  });
});

describe('shownAs', () => {
  it.each([
    [14, undefined, 'date'],
    [22, undefined, 'date'],
    [0, undefined, 'number'],
    [2, undefined, 'number'],
    [9, undefined, 'per cent'],
    [164, 'yyyy-mm-dd', 'date'],
    [164, '[$-409]d\\-mmm\\-yy;@', 'date'],
    [164, '[h]:mm', 'date'],
    [164, '0.00" mm depth"', 'number'],
    [164, '[Red]0.00', 'number'],
    [164, 'General', 'number'],
    [164, '0.0\\m', 'number'],
    [164, '0.0%', 'per cent'],
    [164, '0.0" %"', 'number'],
  ] as const)('format %d %s: %s', (id, code, shown) => {
    expect(shownAs(id, code)).toBe(shown);
  });
});
