import { describe, expect, it } from 'vitest';
import { readDate } from './dates.ts';
import { elapsedYears } from './elapsed.ts';
import { daysOfYearNamed, yearNames } from './year-length.ts';

describe('elapsed time', () => {
  const [from, to] = [readDate('1963-07-01'), readDate('2026-03-01')];

  it('counts days: 22,889 from 1963-07-01 to 2026-03-01', () => {
    expect(elapsedYears(from, to) * 365.25).toBeCloseTo(22_889, 8);
    expect(elapsedYears(to, from)).toBe(-elapsedYears(from, to));
  });

  it('divides them by the year that was named, for none is the calendar’s', () => {
    // UCUM 2.2 (a_j, a_t, a_g); CF 1.13 for UDUNITS; NUBASE from memory
    expect(Object.fromEntries(yearNames.map((name) => [name, daysOfYearNamed(name)]))).toEqual({
      'UCUM a': 365.25,
      'UCUM a_t': 365.24219,
      'UCUM a_g': 365.2425,
      'UDUNITS year': 365.242198781,
      'NUBASE y': 365.2422,
    });
    for (const name of yearNames)
      expect(elapsedYears(from, to, name)).toBeCloseTo(22_889 / daysOfYearNamed(name), 10);
    expect(146_097 / 400).toBe(daysOfYearNamed('UCUM a_g'));
  });
});
