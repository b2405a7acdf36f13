import { describe, expect, it } from 'vitest';
import { normalShares } from './distributions.suite.ts';
import { normalBelow, normalDensity, normalQuantile } from './normal.ts';

const off = (found: number, wanted: number) => Math.abs(found / wanted - 1);

describe('normalBelow', () => {
  it.each(normalShares)('below %d lies what 50 digits give, to 1e-14 of itself', (z, share) => {
    expect(off(normalBelow(z), share)).toBeLessThan(1e-14);
  });
  it('is 0 and 1 at the ends, and refuses what is no number', () => {
    expect(normalBelow(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalBelow(Number.POSITIVE_INFINITY)).toBe(1);
    expect(() => normalBelow(Number.NaN)).toThrow(/no number/);
  });
});

describe('normalDensity', () => {
  // M. Abramowitz & I. Stegun 1964, table 26.1 (from memory)
  it.each([
    [0, 0.398942280401433],
    [1, 0.241970724519143],
    [-2, 0.053990966513188],
  ])('at %d it is the printed %d', (z, printed) => {
    expect(normalDensity(z)).toBeCloseTo(printed, 14);
  });
});

describe('normalQuantile', () => {
  it.each(normalShares.filter(([z]) => z < 1))('finds %d again from its share, to 1e-14', (z, share) => {
    expect(Math.abs(normalQuantile(share) - z)).toBeLessThan(1e-14 * Math.max(1, Math.abs(z)));
  });
  // JCGM 100:2008, table G.1
  it.each([
    [0.6827, 1],
    [0.9, 1.645],
    [0.95, 1.96],
    [0.9545, 2],
    [0.99, 2.576],
    [0.9973, 3],
  ])('between minus and plus lies %d for the printed factor %d', (level, factor) => {
    expect(normalQuantile((1 + level) / 2)).toBeCloseTo(factor, 3);
  });
  it('refuses 0, 1 and what is no number', () => {
    for (const p of [0, 1, -0.2, Number.NaN]) expect(() => normalQuantile(p)).toThrow(/share/);
  });
});
