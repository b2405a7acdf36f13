import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { offsetOf } from './offset.ts';

const pair = (of: number, on: number, sd = 0.01) => ({
  of: { value: of, sd: sd * 0.6 },
  on: { value: on, sd: sd * 0.8 },
});

describe('offsetOf', () => {
  it('of three horizons is their weighted mean, worked by hand', () => {
    // differences 0.42, 0.43, 0.41 m, each +- 1 cm: mean 0.42, standard deviation 1 cm / sqrt(3)
    const { offset, spread, odd } = offsetOf([pair(12.73, 12.31), pair(25.53, 25.1), pair(40.43, 40.02)]);
    expect(offset.value).toBeCloseTo(0.42, 12);
    expect(offset.sd).toBeCloseTo(0.01 / Math.sqrt(3), 12);
    expect(spread).toBeCloseTo(1, 10);
    expect(odd).toEqual([]);
  });

  it('gives a horizon with a fifth of the error 25 times the weight', () => {
    // (25 x 0.50 + 1 x 0.76) / 26 = 0.51
    const { offset } = offsetOf([pair(10.5, 10, 0.01), pair(20.76, 20, 0.05)], 'weighted mean');
    expect(offset.value).toBeCloseTo(0.51, 10);
  });

  it('grows its doubt where horizons scatter more than their errors (Birge)', () => {
    const { offset, spread } = offsetOf([pair(10.4, 10), pair(20.5, 20)]);
    // residuals +- 5 standard deviations, so chi squared 50 on 1 degree of freedom
    expect(spread).toBeCloseTo(50, 8);
    expect(offset.sd).toBeCloseTo((0.01 / Math.sqrt(2)) * Math.sqrt(50), 10);
  });

  it('robust is hardly moved by one wrong match, and points at it', () => {
    const good = [11.2, 14.8, 19.1, 26.3, 33.7].map((on, i) => pair(on + 0.3 + 0.004 * (i - 2), on));
    const wrong = [...good, pair(41, 40)];
    const { offset, odd } = offsetOf(wrong, 'robust');
    expect(Math.abs(offset.value - 0.3)).toBeLessThan(0.004);
    expect(odd).toEqual([5]);
    expect(offsetOf(wrong).offset.value).toBeGreaterThan(0.4);
    expect(offset.sd).toBeLessThan(0.01);
  });

  it('robust is the weighted mean where all fit', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 }),
        (errors) => {
          const pairs = errors.map((error, i) => pair(2 * i + 0.7 + 0.006 * error, 2 * i));
          expect(offsetOf(pairs, 'robust').offset.value).toBeCloseTo(offsetOf(pairs).offset.value, 9);
        },
      ),
      { numRuns: 60, seed: 5 },
    );
  });

  it('refuses no horizons and a horizon without an error', () => {
    expect(() => offsetOf([])).toThrow(/one matched horizon at least/);
    expect(() => offsetOf([pair(1, 2, 0)])).toThrow(/pair 1/);
  });
});
