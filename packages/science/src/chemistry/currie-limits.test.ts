import { describe, expect, it } from 'vitest';
import { currieLimits, currieWorkingLimits } from './currie-limits.ts';

describe('critical level and detection limit of counts', () => {
  // Currie 1968, table II: 2.33 sqrt(B), 2.71 + 4.65 sqrt(B); 1.64 sqrt(B), 2.71 + 3.29 sqrt(B)
  it.each([0, 10, 100, 400])(
    'over a blank of %d as the printed factors have them, to their digits',
    (blank) => {
      const [paired, known, root] = [
        currieLimits(blank),
        currieLimits(blank, 'well known'),
        Math.sqrt(blank),
      ];
      expect(Math.abs(paired.critical - 2.33 * root)).toBeLessThan(0.005 * root + 1e-9);
      expect(Math.abs(paired.detection - 2.71 - 4.65 * root)).toBeLessThan(0.005 + 0.005 * root);
      expect(Math.abs(known.critical - 1.64 * root)).toBeLessThan(0.005 * root + 1e-9);
      expect(Math.abs(known.detection - 2.71 - 3.29 * root)).toBeLessThan(0.005 + 0.005 * root);
    },
  );

  // recomputed outside of the project from the four-digit factors
  it('by working formulas over 100 counts: 23.26 and 49.236, or 16.45 and 35.606', () => {
    expect(currieWorkingLimits(100).critical).toBeCloseTo(23.26, 9);
    expect(currieWorkingLimits(100).detection).toBeCloseTo(49.236, 9);
    expect(currieWorkingLimits(100, 'well known').critical).toBeCloseTo(16.45, 9);
    expect(currieWorkingLimits(100, 'well known').detection).toBeCloseTo(35.606, 9);
  });

  it('B 40 paired: 32.1 (Currie 1968, read in public files)', () => {
    expect(currieLimits(40).detection).toBeCloseTo(32.1, 1);
  });

  it('the limit solves its own equation at any two risks', () => {
    const { critical, detection } = currieLimits(37, 'paired', { alpha: 0.01, beta: 0.1 });
    // k of 1 % and 10 %, from a table of the normal distribution
    expect(critical).toBeCloseTo(2.3263479 * Math.sqrt(74), 5);
    expect(detection).toBeCloseTo(critical + 1.2815516 * Math.sqrt(detection + 74), 5);
  });

  it('refuses less than no blank and risks that are none', () => {
    expect(() => currieLimits(-1)).toThrow(/blank is -1 counts/);
    expect(() => currieLimits(1, 'paired', { alpha: 0, beta: 0.05 })).toThrow(/alpha is 0/);
  });
});
