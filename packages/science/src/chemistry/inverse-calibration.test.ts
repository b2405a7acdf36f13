import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calibrationLine } from './calibration-line.ts';
import { inverseCalibration } from './inverse-calibration.ts';

const contents = [0, 1, 2, 5, 10];
const readings = [0.02, 1.05, 2.01, 5.1, 9.95];
const sds = [0.01, 0.02, 0.03, 0.07, 0.11];

describe('content by a calibration line', () => {
  // recomputed outside of the project
  it('reading 3.40 of three: 3.37261196, u 0.04179203', () => {
    const line = calibrationLine({ contents, readings });
    expect(line.intercept.value).toBeCloseTo(0.04797546, 8);
    expect(line.slope.value).toBeCloseTo(0.993895706, 8);
    expect(line.scatter).toBeCloseTo(0.056834528, 8);
    const content = inverseCalibration(line, { mean: 3.4, replicates: 3 });
    expect(content.value).toBeCloseTo(3.37261196, 8);
    expect(content.sd).toBeCloseTo(0.04179203, 8);
    // t(0.975, 3) = 3.182446, from a table
    expect(content.interval[1] - content.value).toBeCloseTo(3.182446 * content.sd, 6);
    expect(content.extrapolated).toBe(false);
  });

  // recomputed.py: normal equations and law of propagation with 40 digits
  it('weighted by stated deviations: 3.36768230024, u 0.0372252450634, or 0.0406310808574 by the residuals', () => {
    const sample = { mean: 3.4, replicates: 3, sd: 0.05 };
    const stated = inverseCalibration(calibrationLine({ contents, readings, sds }, 'stated'), sample);
    expect(stated.value).toBeCloseTo(3.36768230024, 10);
    expect(stated.sd).toBeCloseTo(0.0372252450634, 10);
    const line = calibrationLine({ contents, readings, sds });
    expect(line.intercept.value).toBeCloseTo(0.0242188170431, 10);
    expect(line.slope.value).toBeCloseTo(1.00240488324, 10);
    expect(inverseCalibration(line, sample).sd).toBeCloseTo(0.0406310808574, 10);
  });

  it('the line’s own errors are those of its covariance: u of a predicted reading is least at the mean', () => {
    const { intercept, slope, covariance, meanContent, scatter, count } = calibrationLine({
      contents,
      readings,
    });
    const at = (x: number) => Math.sqrt(intercept.sd ** 2 + x ** 2 * slope.sd ** 2 + 2 * x * covariance);
    expect(at(meanContent)).toBeCloseTo(scatter / Math.sqrt(count), 10);
    expect(at(meanContent + 1)).toBeGreaterThan(at(meanContent));
  });

  it('any line: weights that are all alike change nothing; a reading on the line leads back', () => {
    const number = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(number, fc.double({ min: 0.5, max: 5, noNaN: true }), number, (a, b, x) => {
        const exact = contents.map((content, i) => a + b * content + 0.01 * Math.sin(7 * i));
        const plain = calibrationLine({ contents, readings: exact });
        const alike = calibrationLine({ contents, readings: exact, sds: contents.map(() => 0.3) });
        const mean = plain.intercept.value + plain.slope.value * x;
        const one = inverseCalibration(plain, { mean, replicates: 2 });
        const other = inverseCalibration(alike, { mean, replicates: 2, sd: 0.3 });
        expect(one.value).toBeCloseTo(x, 8);
        expect(other.value).toBeCloseTo(one.value, 8);
        expect(other.sd).toBeCloseTo(one.sd, 8);
        expect(one.extrapolated).toBe(one.value < 0 || one.value > 10);
      }),
    );
  });

  it('refuses two standards, one content, a slope of nothing, a deviation too few or too many', () => {
    expect(() => calibrationLine({ contents: [1, 2], readings: [1, 2] })).toThrow(/3 or more/);
    expect(() => calibrationLine({ contents: [1, 1, 1], readings: [1, 2, 3] })).toThrow(/all contents are 1/);
    expect(() => calibrationLine({ contents, readings, sds: [1, 1] })).toThrow(/2 deviations/);
    expect(() => calibrationLine({ contents, readings }, 'stated')).toThrow(/no deviation is stated/);
    expect(() => calibrationLine({ contents, readings: [1, 2, 3, 4, Number.NaN] })).toThrow(/number is NaN/);
    const flat = calibrationLine({ contents, readings: [1, 2, 1, 2, 1] });
    expect(() => inverseCalibration(flat, { mean: 1, replicates: 1 })).toThrow(/differs from 0 at 95 %/);
    const weighted = calibrationLine({ contents, readings, sds });
    expect(() => inverseCalibration(weighted, { mean: 3, replicates: 1 })).toThrow(
      /has no standard deviation/,
    );
    expect(() =>
      inverseCalibration(calibrationLine({ contents, readings }), { mean: 3, replicates: 1, sd: 1 }),
    ).toThrow(/line is not weighted/);
  });
});
