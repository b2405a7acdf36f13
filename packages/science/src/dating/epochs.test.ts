import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { astronomicalYear, yearByEpoch } from './epochs.ts';

describe('years in their epochs', () => {
  // b2k and BP lie 50 years apart (GICC05); by hand
  it.each([
    [1963, 'CE', -13, 37, '1963 CE'],
    [1912, 'CE', 38, 88, '1912 CE'],
    [1257, 'CE', 693, 743, '1257 CE'],
    [1, 'CE', 1949, 1999, '1 CE'],
    [1, 'BCE', 1950, 2000, '1 BCE'],
    [44, 'BCE', 1993, 2043, '44 BCE'],
    [11_703, 'b2k', 11_653, 11_703, '9704 BCE'],
  ] as const)('%d %s is %d BP, %d b2k, written %s', (year, epoch, bp, b2k, written) => {
    expect(yearByEpoch(year, epoch)).toMatchObject({ BP: bp, b2k, written });
  });

  it('has no year 0: 1 BCE is astronomical 0 and the year before 1 CE', () => {
    expect(astronomicalYear(1, 'BCE')).toBe(0);
    expect(astronomicalYear(44, 'BCE')).toBe(-43);
    expect(astronomicalYear(1, 'CE') - astronomicalYear(1, 'BCE')).toBe(1);
    for (const epoch of ['CE', 'BCE'] as const)
      expect(() => astronomicalYear(0, epoch)).toThrow(`there is no year 0 ${epoch}`);
    expect(() => astronomicalYear(Number.NaN, 'BP')).toThrow(/the year is NaN/);
  });

  it('leads back from every epoch', () =>
    fc.assert(
      fc.property(fc.integer({ min: -100_000, max: 3000 }), (year) => {
        const { BP, b2k, astronomical, written } = yearByEpoch(year, 'astronomical');
        expect(astronomicalYear(BP, 'BP')).toBe(year);
        expect(astronomicalYear(b2k, 'b2k')).toBe(year);
        expect(astronomical).toBe(year);
        const [number, epoch] = written.split(' ') as [string, 'CE' | 'BCE'];
        expect(astronomicalYear(Number(number), epoch)).toBe(year);
      }),
    ));
});
