import { describe, expect, it } from 'vitest';
import { fitLinear } from './linear-fit.ts';
import { linearSets } from './strd/linear.ts';

const mustAgree = (found: readonly number[], certified: readonly number[], tolerance: number) =>
  found.forEach((value, i) => {
    const wanted = certified[i];
    expect(Math.abs(wanted === 0 ? value : value / wanted - 1), `number ${i + 1}`).toBeLessThan(tolerance);
  });

describe('fitLinear', () => {
  it.each(linearSets)(
    '$name of NIST StRD: certified to $tolerance',
    ({ degree, x, y, b, se, ssr, tolerance }) => {
      const rows = x.map((row) =>
        degree === null ? [1, ...row] : Array.from({ length: degree + 1 }, (_, k) => row[0] ** k),
      );
      const fit = fitLinear(rows, y);
      mustAgree(fit.coefficients, b, tolerance);
      mustAgree(fit.sd, se, tolerance);
      mustAgree([fit.chiSquare], [ssr], tolerance);
    },
  );
  // weighted straight line of the project's sheet, recomputed there by normal equations
  const rows = [1, 2, 3, 4, 5].map((x) => [1, x]);
  const y = [2.1, 3.9, 6.2, 7.8, 10.1];
  const sd = [0.1, 0.1, 0.2, 0.2, 0.4];
  it('reports the covariance as it was asked for: the deviations as they stand, or scaled by chi-square', () => {
    const absolute = fitLinear(rows, y, { sd });
    mustAgree(absolute.coefficients, [0.094577007, 1.953362256], 1e-8);
    mustAgree(absolute.sd, [0.133369482, 0.059644645], 1e-8);
    expect(absolute.covariance[0][1]).toBeCloseTo(-0.0070282, 7);
    expect(absolute.covarianceKind).toBe('absolute');
    const scaled = fitLinear(rows, y, { sd, covariance: 'scaled' });
    mustAgree([scaled.chiSquare], [3.449566161], 1e-8);
    mustAgree(scaled.sd, [0.143013843, 0.063957735], 1e-8);
  });
  // GNU Scientific Library, fit/test.c: Norris with unit weights, covariance not scaled
  it('Norris with known deviations of 1 has the covariance of the reference library', () => {
    const { x, y: norris } = linearSets[0];
    const { covariance } = fitLinear(
      x.map(([value]) => [1, value]),
      norris,
      { sd: norris.map(() => 1) },
    );
    mustAgree(
      [covariance[0][0], covariance[0][1], covariance[1][1]],
      [6.92384428759429e-2, -9.89095016390515e-5, 2.35960747164148e-7],
      1e-12,
    );
  });
  it('refuses columns that follow from others, too few data, rows of unlike length, bad numbers', () => {
    expect(() =>
      fitLinear(
        rows.map(([a, b]) => [a, b, 2 * a - 3 * b]),
        y,
      ),
    ).toThrow(/follows from the others/);
    expect(() => fitLinear(rows.slice(0, 2), y.slice(0, 2))).toThrow(/2 data for 2/);
    expect(() => fitLinear([[1], [1, 2], [1]], [1, 2, 3])).toThrow(/one length/);
    expect(() => fitLinear(rows, [1, 2, 3, Number.NaN, 5])).toThrow(/y 4 is NaN/);
    expect(() => fitLinear(rows, y, { sd: [0.1, 0, 0.2, 0.3, 0.4] })).toThrow(/standard deviation 2 is 0/);
  });
});
