import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { covarianceOf, firstOrderCovariance, firstOrderSd } from './first-order.suite.ts';
import { seaSaltAndDust } from './sea-salt-and-dust.ts';
import { seaSaltRatio } from './sea-salt-ratio.ts';

const exact = (value: number) => ({ value, sd: 0 });

describe('sea salt and dust', () => {
  // Röthlisberger et al. 2002 with R_m of Millero 2008 and R_t 1.78 (from memory); recomputed outside of the project
  it('12 of calcium and 40 of sodium: 10.700928 of dust calcium, 33.988242 of sea-salt sodium', () => {
    const { dustCalcium, seaSaltSodium } = seaSaltAndDust(
      exact(12),
      exact(40),
      seaSaltRatio('Ca'),
      exact(1.78),
    );
    expect(dustCalcium.value).toBeCloseTo(10.700928, 5);
    expect(seaSaltSodium.value).toBeCloseTo(33.988242, 5);
  });

  it('carries all four errors and the covariance, and says what both results share', () => {
    const at = [12, 40, 0.038, 1.78];
    const covariance = covarianceOf([0.6, 1.5, 0.001, 0.2], [[0, 1, 0.3]]);
    const found = seaSaltAndDust(
      { value: 12, sd: 0.6 },
      { value: 40, sd: 1.5 },
      { value: 0.038, sd: 0.001 },
      { value: 1.78, sd: 0.2 },
      0.3,
    );
    const calcium = (ca = 0, na = 0, rm = 0, rt = 0) => (rt * (ca - rm * na)) / (rt - rm);
    const sodium = (ca = 0, na = 0, rm = 0, rt = 0) => na - calcium(ca, na, rm, rt) / rt;
    expect(found.dustCalcium.sd).toBeCloseTo(firstOrderSd(calcium, at, covariance), 7);
    expect(found.seaSaltSodium.sd).toBeCloseTo(firstOrderSd(sodium, at, covariance), 7);
    expect(found.covariance).toBeCloseTo(firstOrderCovariance(calcium, sodium, at, covariance), 7);
  });

  it('any sample: dust calcium and R_m sea-salt sodium are all calcium', () => {
    const content = fc.double({ min: 0, max: 1000, noNaN: true });
    fc.assert(
      fc.property(content, content, fc.double({ min: 0.5, max: 20, noNaN: true }), (ca, na, rt) => {
        const split = seaSaltAndDust(exact(ca), exact(na), exact(0.038221), exact(rt));
        expect(split.dustCalcium.value + 0.038221 * split.seaSaltSodium.value).toBeCloseTo(ca, 8);
        expect(split.dustCalcium.value / rt + split.seaSaltSodium.value).toBeCloseTo(na, 8);
      }),
    );
  });

  it('refuses dust with no more calcium than sea salt', () => {
    expect(() => seaSaltAndDust(exact(12), exact(40), exact(0.04), exact(0.03))).toThrow(
      /above R_m, 0.04 g\/g/,
    );
  });
});
