import { describe, expect, it } from 'vitest';
import { coverageFactor } from './coverage-factor.ts';

describe('coverageFactor', () => {
  it('cuts the degrees of freedom down to a whole number (JCGM 100:2008, table G.2: 2.92 for 16 and 99 %)', () => {
    expect(coverageFactor(0.99, 16.9)).toBe(coverageFactor(0.99, 16));
    expect(coverageFactor(0.99, 16.9)).toBeCloseTo(2.92, 2);
    expect(coverageFactor(0.95, Number.POSITIVE_INFINITY)).toBeCloseTo(1.96, 3);
  });
  it('refuses fewer than 1 degree, and levels that are no share', () => {
    expect(() => coverageFactor(0.95, 0.7)).toThrow(/degrees of freedom are 0.7/);
    expect(() => coverageFactor(95, 3)).toThrow(/level of confidence is 95/);
  });
});
