import { describe, expect, it } from 'vitest';
import { gammaRests, gammaShares, logGammas } from './distributions.suite.ts';
import { gammaAbove, gammaBelow, logGamma } from './gamma.ts';

const off = (found: number, wanted: number) => Math.abs(found / wanted - 1);

describe('logGamma', () => {
  it.each(logGammas)('of %d is what 50 digits give, to 3e-15 of itself', (x, value) => {
    expect(off(logGamma(x), value)).toBeLessThan(3e-15);
  });
  it('gives the factorials', () => {
    expect(Math.exp(logGamma(7))).toBeCloseTo(720, 10);
    expect(logGamma(1)).toBe(0);
    expect(logGamma(2)).toBe(0);
  });
});

describe('gammaBelow', () => {
  it.each(gammaShares)('of shape %d below %d: what 50 digits give, to 1e-13', (shape, x, share) => {
    expect(off(gammaBelow(shape, x), share)).toBeLessThan(1e-13);
  });
  it('refuses a negative x and a shape of 0', () => {
    expect(() => gammaBelow(2, -1)).toThrow(/x is -1/);
    expect(() => gammaBelow(0, 1)).toThrow(/shape/);
    expect(() => gammaBelow(2, Number.NaN)).toThrow(/NaN/);
  });
});

describe('gammaAbove', () => {
  it.each(gammaRests)('of shape %d above %d: what 50 digits give, to 1e-13', (shape, x, share) => {
    expect(off(gammaAbove(shape, x), share)).toBeLessThan(1e-13);
  });
  // percentage points of chi-square as every handbook prints them (from memory)
  it.each([
    [1, 3.841, 0.05],
    [5, 15.086, 0.01],
    [10, 18.307, 0.05],
    [30, 50.892, 0.01],
  ])('%d degrees of freedom: above the printed %d lies %d', (dof, chiSquare, share) => {
    expect(gammaAbove(dof / 2, chiSquare / 2)).toBeCloseTo(share, 4);
  });
});
