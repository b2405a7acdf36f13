import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { covarianceOf, firstOrderSd } from './first-order.suite.ts';
import { nonSeaSalt, nonSeaSaltAll } from './non-sea-salt.ts';
import { seaSaltRatio } from './sea-salt-ratio.ts';

describe('non-sea-salt part', () => {
  it('of 85(4) ug/kg sulphate with 40(2) of sodium is 74.93698, u 4.031521', () => {
    const part = nonSeaSalt({ value: 85, sd: 4 }, { value: 40, sd: 2 }, { value: 0.251576, sd: 0 });
    expect(part.nonSeaSalt.value).toBeCloseTo(74.93696, 5);
    expect(part.nonSeaSalt.sd).toBeCloseTo(4.031521, 5);
    expect(
      nonSeaSalt({ value: 85, sd: 4 }, { value: 40, sd: 2 }, seaSaltRatio('SO4')).nonSeaSalt.value,
    ).toBeCloseTo(74.93698, 4);
  });

  it('carries the errors of ion, tracer and ratio, and their covariance', () => {
    const [ion, tracer, ratio] = [
      { value: 85, sd: 4 },
      { value: 40, sd: 2 },
      { value: 0.07, sd: 0.015 },
    ] as const;
    const covariance = covarianceOf([4, 2, 0.015], [[0, 1, 5]]);
    const found = nonSeaSalt(ion, tracer, ratio, 5);
    expect(found.nonSeaSalt.sd).toBeCloseTo(
      firstOrderSd((x, na, k) => x! - k! * na!, [85, 40, 0.07], covariance),
      8,
    );
    expect(found.seaSalt.sd).toBeCloseTo(Math.hypot(0.07 * 2, 40 * 0.015), 12);
  });

  it('stays below zero where it falls there: cut off it would bias the mean', () => {
    expect(
      nonSeaSalt({ value: 5, sd: 1 }, { value: 40, sd: 2 }, { value: 0.25, sd: 0 }).nonSeaSalt.value,
    ).toBe(-5);
  });

  it('any sample: both parts add up to the whole; the series gives the same', () => {
    const number = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(number, number, fc.double({ min: 0, max: 3, noNaN: true }), (x, na, k) => {
        const part = nonSeaSalt({ value: x, sd: 1 }, { value: na, sd: 2 }, { value: k, sd: 0.1 });
        expect(part.nonSeaSalt.value + part.seaSalt.value).toBeCloseTo(x, 7);
        const out = new Float64Array(1);
        nonSeaSaltAll(Float64Array.of(x), Float64Array.of(na), k, out);
        expect(out[0]).toBe(part.nonSeaSalt.value);
      }),
    );
  });

  it('refuses a ratio below zero, what is no number, a covariance above the product of both errors', () => {
    const [x, na, k] = [
      { value: 5, sd: 1 },
      { value: 40, sd: 2 },
      { value: 0.25, sd: 0 },
    ];
    expect(() => nonSeaSalt(x, na, { value: -0.1, sd: 0 })).toThrow(/ratio is -0.1/);
    expect(() => nonSeaSalt({ value: Number.NaN, sd: 1 }, na, k)).toThrow(/ion is NaN/);
    expect(() => nonSeaSalt({ value: 5, sd: -1 }, na, k)).toThrow(/standard uncertainty of ion is -1/);
    expect(() => nonSeaSalt(x, na, k, 2.1)).toThrow(/covariance is 2.1; allowed: -2 to 2/);
  });
});
