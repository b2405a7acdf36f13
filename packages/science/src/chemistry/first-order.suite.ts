/**
 * Covariance of two functions by the law of propagation (JCGM 100:2008, eq. (13)) with slopes from central differences:
 * what closed error formulas are checked against.
 */
export const firstOrderCovariance = (
  f: (...x: readonly number[]) => number,
  g: (...x: readonly number[]) => number,
  at: readonly number[],
  covariance: readonly (readonly number[])[],
): number => {
  const slopes = (of: (...x: readonly number[]) => number) =>
    at.map((x, i) => {
      const step = 1e-5 * Math.max(1, Math.abs(x));
      return (of(...at.with(i, x + step)) - of(...at.with(i, x - step))) / (2 * step);
    });
  const [a, b] = [slopes(f), slopes(g)];
  return covariance.reduce(
    (sum, row, i) => sum + row.reduce((inner, c, j) => inner + a[i]! * b[j]! * c, 0),
    0,
  );
};

export const firstOrderSd = (
  f: (...x: readonly number[]) => number,
  at: readonly number[],
  covariance: readonly (readonly number[])[],
): number => Math.sqrt(firstOrderCovariance(f, f, at, covariance));

/** Diagonal matrix of squares, with the covariances of some pairs. */
export const covarianceOf = (
  sds: readonly number[],
  pairs: readonly (readonly [i: number, j: number, covariance: number])[] = [],
): readonly (readonly number[])[] =>
  sds.map((sd, i) =>
    sds.map((_, j) =>
      i === j ? sd ** 2 : (pairs.find(([a, b]) => (a === i && b === j) || (a === j && b === i))?.[2] ?? 0),
    ),
  );
