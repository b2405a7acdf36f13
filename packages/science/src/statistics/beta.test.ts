import { describe, expect, it } from 'vitest';
import { betaBelow } from './beta.ts';
import { betaShares } from './distributions.suite.ts';

describe('betaBelow', () => {
  it.each(betaShares)('B(%d, %d) below %d: what 50 digits give, to 1e-13', (a, b, x, share) => {
    expect(Math.abs(betaBelow(a, b, x) / share - 1)).toBeLessThan(1e-13);
  });
  it('turned round it is the rest', () => {
    expect(betaBelow(3, 4.5, 0.3)).toBeCloseTo(1 - betaBelow(4.5, 3, 0.7), 15);
  });
  it('refuses what lies outside of 0 to 1', () => {
    expect(() => betaBelow(1, 2, 1.1)).toThrow(/x is 1.1/);
    expect(() => betaBelow(-1, 2, 0.5)).toThrow(/a is -1/);
  });
});
