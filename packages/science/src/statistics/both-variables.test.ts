import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineBothVariables } from './both-variables.ts';
import { fitStraightLine } from './straight-line.ts';

// K. Pearson's data with the weights of D. York 1966 (data from memory)
const x = [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
const xSd = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1].map((weight) => 1 / Math.sqrt(weight));
const ySd = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500].map((weight) => 1 / Math.sqrt(weight));

describe('lineBothVariables', () => {
  it("gives the published line of Pearson's data (York 1966: 5.47991022, -0.480533407, from memory)", () => {
    const line = lineBothVariables(x, y, xSd, ySd);
    expect(line.intercept).toBeCloseTo(5.47991022, 8);
    expect(line.slope).toBeCloseTo(-0.480533407, 9);
    // recomputed in the project's sheet
    expect(line.interceptSd).toBeCloseTo(0.2949707, 7);
    expect(line.slopeSd).toBeCloseTo(0.057985, 6);
    expect(line.chiSquare / line.degrees).toBeCloseTo(1.483294, 6);
  });
  it('exchanging x and y gives the inverse line', () => {
    const there = lineBothVariables(x, y, xSd, ySd);
    const back = lineBothVariables(y, x, ySd, xSd);
    expect(back.slope).toBeCloseTo(1 / there.slope, 10);
    expect(back.intercept).toBeCloseTo(-there.intercept / there.slope, 9);
    expect(back.chiSquare).toBeCloseTo(there.chiSquare, 9);
  });
  it('with next to no errors in x it is the weighted straight line', () => {
    const line = lineBothVariables(
      x,
      y,
      x.map(() => 1e-9),
      ySd,
    );
    const plain = fitStraightLine(x, y, { sd: ySd });
    expect(line.slope).toBeCloseTo(plain.slope, 10);
    expect(line.interceptSd).toBeCloseTo(plain.sd[0], 8);
    expect(line.slopeSd).toBeCloseTo(plain.sd[1], 8);
    expect(line.covariance).toBeCloseTo(plain.covariance[0][1], 8);
  });
  it('correlated errors: shearing the plane shears the line, errors with it', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.9, max: 0.9, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (r, c) => {
          const before = lineBothVariables(
            x,
            y,
            xSd,
            ySd,
            x.map(() => r),
          );
          const sheared = y.map((value, i) => value - c * x[i]);
          const sd = ySd.map((s, i) => Math.sqrt(s * s + (c * xSd[i]) ** 2 - 2 * c * r * s * xSd[i]));
          const correlation = ySd.map((s, i) => (r * s - c * xSd[i]) / sd[i]);
          const after = lineBothVariables(x, sheared, xSd, sd, correlation);
          return (
            Math.abs(after.slope - (before.slope - c)) < 1e-7 &&
            Math.abs(after.intercept - before.intercept) < 1e-6 &&
            Math.abs(after.chiSquare - before.chiSquare) < 1e-6
          );
        },
      ),
      { seed: 7, numRuns: 50 },
    );
  });
  it('finds a level line, and one far from the origin', () => {
    const level = lineBothVariables([1, 2, 3, 4], [5, 6, 6, 5], [0.1, 0.2, 0.2, 0.1], [0.3, 0.4, 0.4, 0.3]);
    expect(level.slope).toBeCloseTo(0, 12);
    const far = lineBothVariables(
      x.map((v) => v + 1e6),
      y.map((v) => v - 1e5),
      xSd,
      ySd,
    );
    expect(far.slope).toBeCloseTo(-0.480533407, 7);
  });
  it('refuses errors of 0, too few points, bad numbers, an upright line', () => {
    expect(() =>
      lineBothVariables(
        x,
        y,
        x.map(() => 0),
        ySd,
      ),
    ).toThrow(/error of x 1 is 0/);
    expect(() => lineBothVariables([1, 2], [3, 4], [0.1, 0.2], [0.3, 0.4])).toThrow(/3 or more/);
    expect(() => lineBothVariables([1, 2, Number.NaN], [3, 4, 5], [1, 2, 3], [1, 2, 3])).toThrow(
      /x 3 is NaN/,
    );
    expect(() => lineBothVariables([2, 2, 2], [3, 4, 6], [1, 2, 3], [3, 2, 1])).toThrow(/no slope/);
  });
});
