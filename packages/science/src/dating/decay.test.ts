import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDate } from './dates.ts';
import { decayConstant, decayed, relativeErrorByHalfLife } from './decay.ts';
import { elapsedYears } from './elapsed.ts';

describe('radioactive decay', () => {
  // A = A0 exp(-ln2 t/T), recomputed; T and u(T) of NUBASE2020
  it.each([
    ['Cs-137', 30.04, 0.04, 62, 23.916617, 0.001905],
    ['H-3', 12.32, 0.02, 62, 3.055458, 0.005663],
    ['Pb-210', 22.2, 0.22, 100, 4.40564, 0.030942],
    ['Sr-90', 28.91, 0.03, 62, 22.615963, 0.001543],
    ['Ar-39', 268, 8, 500, 27.439543, 0.038603],
  ])(
    'leaves of 100 of %s (%d ± %d) after %d years %d, known to %d by the half-life',
    (_, t, u, years, left, share) => {
      expect(decayed(100, years, t)).toBeCloseTo(left, 6);
      expect(relativeErrorByHalfLife(years, t, u)).toBeCloseTo(share, 6);
    },
  );

  it('takes 0.0123 Bq/kg of 2026-03-01 back to 0.05222591 Bq/kg on 1963-07-01', () => {
    const elapsed = elapsedYears(readDate('1963-07-01'), readDate('2026-03-01'));
    expect(decayed(0.0123, -elapsed, 30.04)).toBeCloseTo(0.05222591, 8);
  });

  it('halves in a half-life; there and back is where it was; the error is the slope', () =>
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1e6, noNaN: true }),
        fc.double({ min: 0.1, max: 1e5, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        (activity, t, lives) => {
          expect(decayed(activity, t, t) / activity).toBeCloseTo(0.5, 12);
          const there = decayed(activity, lives * t, t);
          expect(decayed(there, -lives * t, t) / activity).toBeCloseTo(1, 12);
          const h = 1e-6 * t;
          const slope = (decayed(activity, lives * t, t + h) - decayed(activity, lives * t, t - h)) / (2 * h);
          expect(relativeErrorByHalfLife(lives * t, t, 0.01 * t)).toBeCloseTo(
            Math.abs(slope / there) * 0.01 * t,
            7,
          );
        },
      ),
    ));

  it('refuses what cannot be', () => {
    expect(() => decayed(-1, 5, 30)).toThrow(/activity is -1/);
    expect(() => decayed(Number.NaN, 5, 30)).toThrow(/activity is NaN/);
    expect(() => decayed(3, 5, 0)).toThrow(/half-life is 0 a/);
    expect(() => decayed(3, 1501, 30)).toThrow(/elapsed time is 1501 a; allowed: -1500 to 1500 a/);
    expect(() => decayConstant(-4)).toThrow(/half-life/);
  });
});
