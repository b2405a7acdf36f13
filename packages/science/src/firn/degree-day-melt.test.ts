import { describe, expect, it } from 'vitest';
import { degreeDayFactor, degreeDayMelt } from './degree-day-melt.ts';

describe('melt by degree days', () => {
  // factors of EISMINT-Greenland (Ritz 1997); products by hand
  it('of 297.2229 K d is 891.669 mm w.e. of snow and 2377.783 of ice', () => {
    const days = 297.2229127944294;
    expect(1000 * degreeDayMelt(days, degreeDayFactor('snow'))).toBeCloseTo(891.669, 3);
    expect(1000 * degreeDayMelt(days, degreeDayFactor('ice'))).toBeCloseTo(2377.783, 3);
  });

  it('is less by what freezes again', () => {
    expect(degreeDayMelt(100, 4, 0.6)).toBeCloseTo(0.16, 12);
    expect(degreeDayMelt(100, 4, 1)).toBe(0);
  });

  it('refuses negative days, factors in another unit, shares above 1', () => {
    expect(() => degreeDayMelt(-1, 3)).toThrow(/degree days is -1 K d/);
    expect(() => degreeDayMelt(100, 0.003)).toThrow(/0\.5 to 30 mm w\.e\.\/K\/d/);
    expect(() => degreeDayMelt(100, 3, 1.2)).toThrow(/refrozen share is 1\.2/);
    expect(() => degreeDayMelt(Number.NaN, 3)).toThrow(/NaN/);
  });
});
