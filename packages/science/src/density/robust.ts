/** Middle value; of an even count the mean of the two in the middle. NaN of none. */
export const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
};

/**
 * Standard deviation that outliers don't move: 1.4826 times the median distance from `centre`; the factor makes it
 * that of a normal distribution (F. R. Hampel 1974, J. Am. Stat. Assoc. 69, 383-393; from memory).
 */
export const robustSd = (values: readonly number[], centre = median(values)): number =>
  1.4826 * median(values.map((value) => Math.abs(value - centre)));

/** Tukey's biweight of a standardised residual: 1 at 0, 0 from `cut` on. */
export const biweight = (residual: number, cut: number): number => {
  const u = residual / cut;
  return Math.abs(u) >= 1 ? 0 : (1 - u * u) ** 2;
};
