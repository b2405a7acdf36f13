import { describe, expect, it } from 'vitest';
import { power, saturating } from './curves.ts';
import { fitNonlinear } from './nonlinear-fit.ts';
import { nonlinearSets } from './strd/nonlinear.ts';

const off = (found: readonly number[], certified: readonly number[]) =>
  Math.max(...found.map((value, i) => Math.abs(value / certified[i] - 1)));

describe('fitNonlinear', () => {
  const cases = nonlinearSets.flatMap((set) =>
    set.starts.map((start, k) => ({ ...set, start, number: k + 1 })),
  );
  it.each(cases)(
    '$name of NIST StRD from start $number: certified b to 1e-6, deviations to 1e-5',
    ({ curve, x, y, start, b, se, rss }) => {
      const fit = fitNonlinear(curve, x, y, start);
      expect(off(fit.coefficients, b)).toBeLessThan(1e-6);
      expect(off(fit.sd, se)).toBeLessThan(1e-5);
      expect(off([fit.chiSquare], [rss])).toBeLessThan(1e-9);
    },
  );
  it('ends on data that lie on the curve exactly, and where a parameter is 0', () => {
    const x = [1, 2, 3, 4, 6];
    const exact = fitNonlinear(
      power,
      x,
      x.map((v) => 3 * v ** 1.5),
      [1, 1],
    );
    expect(exact.coefficients[1]).toBeCloseTo(1.5, 10);
    const flat = fitNonlinear(power, x, [2, 2.1, 1.9, 1.95, 2.05], [1, 1]);
    expect(Math.abs(flat.coefficients[1])).toBeLessThan(0.05);
    const nothing = fitNonlinear(saturating, x, [0.1, -0.1, -0.1, 0.1, 0], [1, 1]);
    expect(Math.abs(nothing.coefficients[0])).toBeLessThan(0.1);
  });
  it('weights: twice the deviation everywhere leaves b and doubles its own', () => {
    const { x, y, starts } = nonlinearSets[0];
    const one = fitNonlinear(saturating, x, y, starts[1], { sd: y.map((v) => 0.01 * v) });
    const two = fitNonlinear(saturating, x, y, starts[1], { sd: y.map((v) => 0.02 * v) });
    expect(off(two.coefficients, one.coefficients)).toBeLessThan(1e-6);
    expect(
      off(
        two.sd,
        one.sd.map((value) => 2 * value),
      ),
    ).toBeLessThan(1e-6);
    expect(two.covarianceKind).toBe('absolute');
  });
  it('refuses a start without a value, too few data, and parameters that the data say nothing of', () => {
    expect(() => fitNonlinear(power, [-1, 2, 3], [1, 4, 9], [1, 2.5])).toThrow(/no value at the start/);
    expect(() => fitNonlinear(power, [2, 3], [4, 9], [1, 2])).toThrow(/2 data for 2/);
    expect(() => fitNonlinear(power, [1, 1, 1], [4, 9, 7], [1, 2])).toThrow(/say nothing of parameter/);
  });
});
