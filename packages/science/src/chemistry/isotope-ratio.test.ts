import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heavyIsotopes, isotopeDelta, isotopeRatio } from './isotope-ratio.ts';

describe('isotope ratio of a delta', () => {
  // Baertschi 1976: 2005.20e-6 in VSMOW
  it('-30 permil of 18O are 1945.044e-6', () => {
    expect(1e6 * isotopeRatio({ value: -30, sd: 0 }, '18O').value).toBeCloseTo(1945.044, 6);
  });

  it('carries the error of the delta and of ocean water', () => {
    const { sd } = isotopeRatio({ value: -30, sd: 0.1 }, '18O');
    expect(sd).toBeCloseTo(Math.hypot(0.45e-6 * 0.97, 2005.2e-6 * 1e-4), 15);
    const back = isotopeDelta({ value: 150e-6, sd: 1e-7 }, '2H');
    expect(back.sd).toBeCloseTo(1000 * (150 / 155.76) * Math.hypot(1e-7 / 150e-6, 0.05 / 155.76), 9);
  });

  it('leads back to the delta', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...heavyIsotopes),
        fc.double({ min: -999, max: 9e4, noNaN: true }),
        (isotope, delta) => {
          const { value } = isotopeRatio({ value: delta, sd: 0 }, isotope);
          expect(isotopeDelta({ value, sd: 0 }, isotope).value).toBeCloseTo(delta, 8);
        },
      ),
    );
  });

  it('refuses less than nothing', () => {
    expect(() => isotopeRatio({ value: -1001, sd: 0 }, '2H')).toThrow(/delta is -1001 \[ppth\]/);
    expect(() => isotopeDelta({ value: -1e-6, sd: 0 }, '2H')).toThrow(/0 to 1/);
  });
});
