import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { studentShares } from './distributions.suite.ts';
import { studentBelow, studentQuantile } from './student.ts';

describe('studentBelow', () => {
  it.each(studentShares)('below %d with %d degrees lies what 50 digits give, to 1e-13', (t, dof, share) => {
    expect(Math.abs(studentBelow(t, dof) / share - 1)).toBeLessThan(1e-13);
  });
  it('with no end of degrees it is the normal distribution', () => {
    expect(studentBelow(-1.959963984540054, Number.POSITIVE_INFINITY)).toBeCloseTo(0.025, 14);
  });
  it('refuses degrees below 0.1 and what is no number', () => {
    expect(() => studentBelow(1, 0)).toThrow(/degrees of freedom/);
    expect(() => studentBelow(Number.NaN, 3)).toThrow(/no number/);
  });
});

describe('studentQuantile', () => {
  // JCGM 100:2008, table G.2: t for the share p between minus and plus (rows and columns drawn from all over it)
  it.each([
    [1, 0.95, 12.71],
    [2, 0.99, 9.92],
    [4, 0.9545, 2.87],
    [10, 0.9, 1.81],
    [16, 0.99, 2.92],
    [20, 0.9973, 3.42],
    [50, 0.95, 2.01],
    [100, 0.6827, 1.005],
    [Number.POSITIVE_INFINITY, 0.99, 2.576],
  ])('%d degrees, %d: the printed %d', (dof, level, printed) => {
    const digits = String(printed).split('.')[1]?.length ?? 0;
    expect(studentQuantile((1 + level) / 2, dof).toFixed(digits)).toBe(printed.toFixed(digits));
  });
  it('gives back the share that it was asked for, to 1e-13 of itself', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-12, max: 0.5, noNaN: true }),
        fc.double({ min: 0.5, max: 1e7, noNaN: true }),
        (p, dof) => Math.abs(studentBelow(studentQuantile(p, dof), dof) / p - 1) < 1e-13,
      ),
      { seed: 1, numRuns: 500 },
    );
  });
  it('finds what lies 1e200 out, and says where nothing can be found', () => {
    // one degree: Cauchy's distribution, t = -cot(pi p), -1/(pi p) for small p
    expect(studentQuantile(1e-200, 1) * Math.PI * 1e-200).toBeCloseTo(-1, 12);
    expect(() => studentQuantile(1e-300, 0.5)).toThrow(/beyond the numbers/);
  });
  it('refuses 0, 1 and what is no number', () => {
    for (const p of [0, 1, Number.NaN]) expect(() => studentQuantile(p, 5)).toThrow(/share/);
  });
});
