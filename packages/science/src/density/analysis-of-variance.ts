/** Spread within groups and between their true means. */
export interface OneWay {
  readonly mean: number;
  /** Mean square within groups: variance of one reading. */
  readonly within: number;
  readonly withinDegrees: number;
  /** Variance of the groups' true means; negative where they differ less than their readings make them. */
  readonly between: number;
  readonly betweenDegrees: number;
  /** Mean square of the groups' means, weighed by size, and the size that they have for it. */
  readonly meanSquare: number;
  readonly size: number;
}

/**
 * One-way analysis of variance of groups of unequal size: within = SSW/(N - k), between = (MSB - MSW)/n0 with
 * n0 = (N - sum n_i^2/N)/(k - 1).
 *
 * Source: S. R. Searle, G. Casella, C. E. McCulloch 1992, *Variance Components*, section 3.6 (from memory); with
 * equal sizes it is JCGM 100:2008 (GUM), H.5.
 *
 * @param groups readings by group, none empty
 * @returns variances NaN where the groups don't say (one reading each, one group)
 */
export const oneWay = (groups: readonly (readonly number[])[]): OneWay => {
  const sizes = groups.map((group) => group.length);
  const count = sizes.reduce((sum, n) => sum + n, 0);
  const means = groups.map((group) => group.reduce((sum, x) => sum + x, 0) / group.length);
  const mean = means.reduce((sum, m, i) => sum + m * sizes[i], 0) / count;
  const withinSquares = groups.reduce(
    (sum, group, i) => sum + group.reduce((part, x) => part + (x - means[i]) ** 2, 0),
    0,
  );
  const betweenSquares = means.reduce((sum, m, i) => sum + sizes[i] * (m - mean) ** 2, 0);
  const withinDegrees = count - groups.length;
  const betweenDegrees = groups.length - 1;
  const n0 = (count - sizes.reduce((sum, n) => sum + n * n, 0) / count) / betweenDegrees;
  const within = withinSquares / withinDegrees;
  return {
    mean,
    within,
    withinDegrees,
    between: (betweenSquares / betweenDegrees - within) / n0,
    betweenDegrees,
    meanSquare: betweenSquares / betweenDegrees,
    size: n0,
  };
};
