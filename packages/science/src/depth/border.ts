/** Relative to the pivot's size before elimination; 33 km of hole leave 1e-11. */
const LEAST_PIVOT = 1e-13;

export interface BorderSolution {
  readonly move: Float64Array;
  readonly sound: boolean;
}

/**
 * The globals once the chain is eliminated: a small dense system.
 *
 * @param border upper triangle of the precision, row by row
 * @param factor takes F, lower triangular, with F F' = covariance
 * @returns `sound` false where the precision is not positive definite: the other results then mean nothing
 */
export const solveBorder = (
  border: Float64Array,
  right: Float64Array,
  factor: Float64Array,
): BorderSolution => {
  const k = right.length;
  // precision = L'L with L lower: Cholesky from the last row up, so that L^-1 is lower as well
  const l = new Float64Array(k * k);
  let sound = true;
  for (let i = k - 1; i >= 0; i--) {
    let pivot = border[i * k + i];
    const size = Math.abs(pivot);
    if (!(size > 0)) sound = false;
    for (let m = i + 1; m < k; m++) pivot -= l[m * k + i] * l[m * k + i];
    if (!(pivot > LEAST_PIVOT * size)) sound = false;
    const root = Math.sqrt(Math.max(pivot, LEAST_PIVOT * size));
    l[i * k + i] = root;
    for (let j = 0; j < i; j++) {
      let sum = border[j * k + i];
      for (let m = i + 1; m < k; m++) sum -= l[m * k + i] * l[m * k + j];
      l[i * k + j] = sum / root;
    }
  }
  factor.fill(0);
  for (let j = 0; j < k; j++) {
    factor[j * k + j] = 1 / l[j * k + j];
    for (let i = j + 1; i < k; i++) {
      let sum = 0;
      for (let m = j; m < i; m++) sum -= l[i * k + m] * factor[m * k + j];
      factor[i * k + j] = sum / l[i * k + i];
    }
  }
  const half = new Float64Array(k);
  const move = new Float64Array(k);
  for (let j = 0; j < k; j++) {
    let sum = 0;
    for (let i = j; i < k; i++) sum += factor[i * k + j] * right[i];
    half[j] = sum;
  }
  for (let i = 0; i < k; i++) {
    let sum = 0;
    for (let j = 0; j <= i; j++) sum += factor[i * k + j] * half[j];
    move[i] = sum;
  }
  return { move, sound };
};
