import { describe, expect, it } from 'vitest';
import { blankLimits } from './blank-limits.ts';
import { calibratedLimit } from './calibrated-limit.ts';

const blanks = [0.12, 0.15, 0.09, 0.14, 0.11, 0.13, 0.1, 0.12, 0.16, 0.08];

describe('limits from blanks', () => {
  // recomputed outside of the project; factors 3 and 10 of IUPAC, t(0.99, 9) = 2.821438
  it('ten of them: 3 s = 0.077459667 above 0.12, 10 s = 0.25819889', () => {
    const limits = blankLimits(blanks);
    expect(limits.mean).toBeCloseTo(0.12, 12);
    expect(limits.sd).toBeCloseTo(0.025819889, 9);
    expect(limits.detection.value).toBeCloseTo(0.077459667, 9);
    expect(limits.reading).toBeCloseTo(0.197459667, 9);
    expect(limits.quantification.value).toBeCloseTo(0.25819889, 8);
  });

  it('by Student’s t 0.07284921', () => {
    expect(blankLimits(blanks, 't, 99 %').detection.value).toBeCloseTo(0.07284921, 8);
  });

  it('are themselves known to 24 % from ten blanks', () => {
    const { detection } = blankLimits(blanks);
    expect(detection.sd / detection.value).toBeCloseTo(1 / Math.sqrt(18), 12);
  });

  it('refuses one blank, blanks without scatter, blanks that are no number', () => {
    expect(() => blankLimits([0.1])).toThrow(/there are 1 blanks/);
    expect(() => blankLimits([0.1, 0.1, 0.1])).toThrow(/all blanks are/);
    expect(() => blankLimits([0.1, Number.POSITIVE_INFINITY])).toThrow(/blank is Infinity/);
  });
});

describe('detection limit of a calibrated instrument', () => {
  it('is 3 s/b where the line is exact, and more where it is not', () => {
    expect(calibratedLimit(0.02, { value: 0.1, sd: 0 }, { value: 0.5, sd: 0 })).toBeCloseTo(0.12, 12);
    // 3 sqrt(0.02^2 + 0.01^2 + (0.1/0.5)^2 0.05^2)/0.5, by hand
    expect(calibratedLimit(0.02, { value: 0.1, sd: 0.01 }, { value: 0.5, sd: 0.05 })).toBeCloseTo(
      6 * Math.sqrt(4e-4 + 1e-4 + 1e-4),
      12,
    );
    expect(() => calibratedLimit(0.02, { value: 0.1, sd: 0 }, { value: 0, sd: 0 })).toThrow(/slope is 0/);
  });
});
