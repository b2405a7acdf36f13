import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { currieLimits } from './currie-limits.ts';
import { countingLimits, poissonLimits } from './poisson-limits.ts';

const upTo = (n: number, mean: number): number => {
  let [term, sum] = [Math.exp(-mean), 0];
  for (let k = 0; k <= n; k += 1) {
    sum += term;
    term *= mean / (k + 1);
  }
  return sum;
};

describe('exact limits of few counts', () => {
  it('without a blank: one count is enough, and 3.00 are found 95 times in 100 (-ln 0.05)', () => {
    expect(poissonLimits(0, 'well known')).toEqual({
      critical: 0,
      detection: expect.closeTo(-Math.log(0.05), 10),
    });
  });

  // recomputed.py: sums of Poisson and binomial probabilities with 40 digits; alpha 5 %, beta 10 %
  it.each([
    [0, 'well known', 0, -Math.log(0.1)],
    [2, 'well known', 3, 7.27467389335],
    [4, 'well known', 4, 8.99471154132],
    [0, 'paired', 4, 7.99358958605],
    [2, 'paired', 6, 11.6226007787],
    [4, 'paired', 7, 13.8341774747],
  ] as const)('over %d counts, %s: more than %d, %d', (blank, known, critical, detection) => {
    const found = poissonLimits(blank, known, { alpha: 0.05, beta: 0.1 });
    expect(found.critical).toBeCloseTo(critical, 12);
    expect(found.detection).toBeCloseTo(detection, 8);
  });

  it('hold both risks, whatever the blank', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 30, noNaN: true }), (blank) => {
        const { critical, detection } = poissonLimits(blank, 'well known');
        const gross = Math.round(critical + blank);
        expect(1 - upTo(gross, blank)).toBeLessThanOrEqual(0.05 + 1e-12);
        expect(upTo(gross, blank + detection)).toBeCloseTo(0.05, 9);
      }),
    );
  });

  it('come near Currie’s as counts grow: 8 % apart at 400', () => {
    for (const known of ['paired', 'well known'] as const)
      expect(
        Math.abs(poissonLimits(400, known).detection / currieLimits(400, known).detection - 1),
      ).toBeLessThan(0.08);
  });

  it('serve below 5 counts, Currie’s from there on, and the result says so', () => {
    expect(countingLimits(4).by).toBe('exact Poisson');
    expect(countingLimits(5).by).toBe('Currie 1968');
    expect(countingLimits(0, 'well known').detection).toBeCloseTo(2.9957, 4);
  });

  it('refuse half a count of a paired blank, and more than the sums can bear', () => {
    expect(() => poissonLimits(2.5)).toThrow(/the paired blank counted 2.5/);
    expect(() => poissonLimits(501)).toThrow(/0 to 500 counts/);
  });
});
