import { describe, expect, it } from 'vitest';
import { glenStrainRate } from './glen.ts';

const year = 31_557_600;

describe("Glen's law", () => {
  it('gives strain rates that an independent computation gives, per year of 365.25 days', () => {
    // A of Cuffey & Paterson 2010, Table 3.4, at -10, 0 and -20 degrees C; recomputed in Python
    expect(glenStrainRate(3.5e-25, 1e5) * year).toBeCloseTo(0.01104516, 8);
    expect(glenStrainRate(2.4e-24, 1.0e5) * year).toBeCloseTo(0.07573824, 8);
    expect(glenStrainRate(1.2e-25, 5e4) * year).toBeCloseTo(0.000473364, 9);
  });

  it('goes with the cube of the stress', () => {
    expect(glenStrainRate(6.8e-26, 2 * 7e4) / glenStrainRate(6.8e-26, 7e4)).toBeCloseTo(8, 12);
  });

  it('refuses a parameter in other units and a negative stress', () => {
    // 1/(a bar3) instead of 1/(s Pa3)
    expect(() => glenStrainRate(0.0148, 1e5)).toThrow(/creep parameter is 0.0148/);
    expect(() => glenStrainRate(3.5e-25, -1)).toThrow(/stress is -1 Pa; allowed: 0 to/);
  });
});
