import { mustLie, QuantityError } from '../quantity-error.ts';
import { mustBeFinite } from './data.ts';
import { fitLinear, type LinearFit, type LinearFitOptions } from './linear-fit.ts';

const where = 'polynomial by least squares';

/**
 * Coefficients of x^0, x^1, … from those of powers of u = (x - middle)/half: row k is the k-th power of u written in x.
 */
const powersOf = (degree: number, middle: number, half: number): readonly (readonly number[])[] => {
  const table = [[1]];
  for (let k = 1; k <= degree; k++) {
    const before = table[k - 1];
    table.push(
      Array.from({ length: k + 1 }, (_, j) => ((before[j - 1] ?? 0) - middle * (before[j] ?? 0)) / half),
    );
  }
  return table;
};

/**
 * Weighted least squares of a polynomial, coefficients from the constant upwards.
 *
 * Fitted in u = (x - middle)/half, which lies between -1 and 1, where the columns are far less alike than powers of x, and
 * written in x afterwards, with the covariance. Source: as `fitLinear`; the shift is common practice (NIST/ITL StRD,
 * Filip, asks for the like).
 *
 * @param degree 0 to 20, less than the number of different x
 * @throws QuantityError
 */
export const fitPolynomial = (
  x: readonly number[],
  y: readonly number[],
  degree: number,
  options: LinearFitOptions = {},
): LinearFit => {
  mustLie(where, 'degree', degree, 0, 20, '');
  if (!Number.isInteger(degree)) throw new QuantityError(where, `degree is ${degree}`, 'a whole number');
  if (x.length !== y.length)
    throw new QuantityError(where, `${x.length} x, ${y.length} y`, 'as many of one as of the other');
  mustBeFinite(where, 'x', x);
  const low = x.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const high = x.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const middle = (low + high) / 2;
  const half = (high - low) / 2 || 1;
  const rows = x.map((value) => {
    const u = (value - middle) / half;
    const row = [1];
    for (let k = 1; k <= degree; k++) row.push(row[k - 1] * u);
    return row;
  });
  const fit = fitLinear(rows, y, options);
  const table = powersOf(degree, middle, half);
  const written = (of: (k: number) => number, j: number): number => {
    let sum = 0;
    for (let k = degree; k >= j; k--) sum += table[k][j] * of(k);
    return sum;
  };
  // one side of the covariance after the other
  const halfway = fit.covariance.map((row) => row.map((_, j) => written((k) => row[k], j)));
  const covariance = fit.covariance.map((_, i) =>
    fit.covariance.map((__, j) => written((k) => halfway[k][j], i)),
  );
  return {
    ...fit,
    coefficients: fit.coefficients.map((_, j) => written((k) => fit.coefficients[k], j)),
    covariance,
    sd: covariance.map((row, k) => Math.sqrt(row[k])),
  };
};
