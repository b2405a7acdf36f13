import { describe, expect, it } from 'vitest';
import { fitPolynomial } from './polynomial-fit.ts';
import { linearSets } from './strd/linear.ts';

const mustAgree = (found: readonly number[], certified: readonly number[], tolerance: number) =>
  found.forEach((value, i) => {
    const wanted = certified[i];
    expect(Math.abs(wanted === 0 ? value : value / wanted - 1), `number ${i + 1}`).toBeLessThan(tolerance);
  });

describe('fitPolynomial', () => {
  it.each(linearSets.filter(({ degree }) => degree !== null))(
    '$name of NIST StRD from x alone: certified to 1e-9, the 11 coefficients of Filip too',
    ({ degree, x, y, b, se, ssr }) => {
      const fit = fitPolynomial(
        x.map(([value]) => value),
        y,
        degree ?? 0,
      );
      mustAgree(fit.coefficients, b, 1e-9);
      mustAgree(fit.sd, se, 1e-9);
      mustAgree([fit.chiSquare], [ssr], 1e-9);
    },
  );
  it('refuses a degree that is no whole number, and more than the data can tell', () => {
    expect(() => fitPolynomial([1, 2, 4], [3, 5, 6], 1.5)).toThrow(/degree is 1.5/);
    expect(() => fitPolynomial([1, 1, 4, 4], [3, 5, 6, 7], 2)).toThrow(/follows from the others/);
  });
});
