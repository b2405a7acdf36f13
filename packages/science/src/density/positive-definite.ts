/**
 * Inverse of a small symmetric positive definite matrix by Cholesky's decomposition.
 *
 * @param matrix rows; the lower triangle is read
 * @returns null where it is not positive definite to the precision of the machine
 */
export const inverseOf = (matrix: readonly (readonly number[])[]): number[][] | null => {
  const n = matrix.length;
  const lower: number[][] = matrix.map(() => new Array<number>(n).fill(0));
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i][j];
      for (let k = 0; k < j; k++) sum -= lower[i][k] * lower[j][k];
      if (i !== j) lower[i][j] = sum / lower[j][j];
      else {
        if (!(sum > 1e-13 * Math.abs(matrix[i][i]))) return null;
        lower[i][i] = Math.sqrt(sum);
      }
    }
  const inverse: number[][] = matrix.map(() => new Array<number>(n).fill(0));
  for (let column = 0; column < n; column++) {
    const x = new Array<number>(n).fill(0);
    for (let i = 0; i < n; i++) {
      let sum = i === column ? 1 : 0;
      for (let k = 0; k < i; k++) sum -= lower[i][k] * x[k];
      x[i] = sum / lower[i][i];
    }
    for (let i = n - 1; i >= 0; i--) {
      let sum = x[i];
      for (let k = i + 1; k < n; k++) sum -= lower[k][i] * x[k];
      x[i] = sum / lower[i][i];
      inverse[i][column] = x[i];
    }
  }
  return inverse;
};
