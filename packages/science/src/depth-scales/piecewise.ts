/** Index of the last knot at or above `x` from the top, i.e. the largest i with xs[i] <= x; -1 if there is none. */
export const lastAtMost = (xs: readonly number[], x: number): number => {
  let low = 0;
  let high = xs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (xs[middle] <= x) low = middle + 1;
    else high = middle;
  }
  return low - 1;
};

/**
 * Piecewise linear through (xs[i], ys[i]); beyond the ends it goes on with slope 1, as depths do.
 *
 * @param xs never decreasing; of knots at the same x the last one counts
 */
export const piecewise = (xs: readonly number[], ys: readonly number[]): ((x: number) => number) => {
  const last = xs.length - 1;
  return (x) => {
    const i = lastAtMost(xs, x);
    if (i < 0) return ys[0] + (x - xs[0]);
    if (i === last) return ys[last] + (x - xs[last]);
    return ys[i] + ((ys[i + 1] - ys[i]) * (x - xs[i])) / (xs[i + 1] - xs[i]);
  };
};

/**
 * Indices of a longest strictly rising run of picks, O(n log n) (patience sorting; Fredman 1975, Discrete Math. 11,
 * 29-35; cited from memory).
 */
export const longestRise = (values: readonly number[]): readonly number[] => {
  const ends: number[] = [];
  const before: number[] = [];
  values.forEach((value, i) => {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (values[ends[middle]] < value) low = middle + 1;
      else high = middle;
    }
    before[i] = low > 0 ? ends[low - 1] : -1;
    ends[low] = i;
  });
  const picks: number[] = [];
  for (let i = ends[ends.length - 1] ?? -1; i >= 0; i = before[i]) picks.push(i);
  return picks.reverse();
};
