import { describe, expect, it } from 'vitest';
import { constantConcentrationAge } from './lead-210-constant-concentration.ts';

describe('210Pb of constant concentration', () => {
  // T½ 22.20 a (NUBASE2020): one and four half-lives
  it('is one half-life old at half of the concentration, four at a sixteenth', () => {
    expect(constantConcentrationAge(80, 40, 22.2)).toBeCloseTo(22.2, 10);
    expect(constantConcentrationAge(80, 5, 22.2)).toBeCloseTo(88.8, 10);
  });

  it('is negative where there is more than at the surface, rather than quietly 0', () => {
    expect(constantConcentrationAge(80, 100, 22.2)).toBeLessThan(0);
  });

  it('refuses concentrations that are not above 0', () => {
    expect(() => constantConcentrationAge(0, 40, 22.2)).toThrow(/at the surface is 0; allowed: above 0/);
    expect(() => constantConcentrationAge(80, -3, 22.2)).toThrow(/concentration is -3/);
    expect(() => constantConcentrationAge(80, Number.NaN, 22.2)).toThrow(/concentration is NaN/);
  });
});
