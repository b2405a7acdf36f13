import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { covarianceOf, firstOrderSd } from './first-order.suite.ts';
import { agreedDeltas, twoPointScale } from './two-point-scale.ts';

const exact = (value: number) => ({ value, sd: 0 });
const onScale = (m: number, v: number, s: number, agreed: number) =>
  twoPointScale(
    exact(m),
    { agreed: exact(0), measured: exact(v) },
    { agreed: exact(agreed), measured: exact(s) },
  ).value;

describe('scale of two reference waters', () => {
  // recomputed outside of the project; agreed values: IUPAC 1993, IAEA reference sheet
  it.each([
    [-33.2, 0.15, -55.05, -55.5, -33.53125],
    [-255, 0.8, -424.9, -428, -257.182053],
    [-255, 0.8, -424.9, -427.5, -256.881607],
  ])('reading %d between %d and %d, which is %d: %d permil', (m, v, s, agreed, delta) => {
    expect(onScale(m, v, s, agreed)).toBeCloseTo(delta, 5);
  });

  it('the first two waters are exact, their successors have errors and another 2H of SLAP2', () => {
    expect(agreedDeltas('2H')).toEqual({ upper: { value: 0, sd: 0 }, lower: { value: -428, sd: 0 } });
    expect(agreedDeltas('2H', 'VSMOW2-SLAP2').lower).toEqual({ value: -427.5, sd: 0.3 });
    expect(agreedDeltas('18O', 'VSMOW2-SLAP2').lower).toEqual({ value: -55.5, sd: 0.02 });
    expect(agreedDeltas('18O').lower).toEqual({ value: -55.5, sd: 0 });
  });

  it('carries five errors and three covariances', () => {
    const found = twoPointScale(
      { value: -255, sd: 0.5 },
      { agreed: { value: 0.1, sd: 0.3 }, measured: { value: 0.8, sd: 0.4 } },
      { agreed: { value: -427.5, sd: 0.2 }, measured: { value: -424.9, sd: 0.6 } },
      { sampleUpper: 0.05, sampleLower: 0.1, upperLower: -0.08 },
    );
    const covariance = covarianceOf(
      [0.5, 0.4, 0.6, 0.3, 0.2],
      [
        [0, 1, 0.05],
        [0, 2, 0.1],
        [1, 2, -0.08],
      ],
    );
    const f = (m = 0, v = 0, s = 0, a = 0, b = 0) => a + ((m - v) * (b - a)) / (s - v);
    expect(found.sd).toBeCloseTo(firstOrderSd(f, [-255, 0.8, -424.9, 0.1, -427.5], covariance), 7);
  });

  it('any instrument: each water comes out as agreed, with share 0 and 1', () => {
    const reading = fc.double({ min: -900, max: 900, noNaN: true });
    fc.assert(
      fc.property(reading, reading, (v, s) => {
        fc.pre(Math.abs(v - s) > 1);
        expect(onScale(v, v, s, -55.5)).toBeCloseTo(0, 9);
        expect(onScale(s, v, s, -55.5)).toBeCloseTo(-55.5, 9);
      }),
    );
  });

  it('refuses two waters that read alike', () => {
    expect(() => onScale(-10, -20, -20, -55.5)).toThrow(/both waters read -20/);
  });
});
