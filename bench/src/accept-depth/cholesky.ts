/** Dense Cholesky factor of a symmetric positive definite matrix, lower triangle by rows. */
export interface Factor {
  readonly size: number;
  readonly lower: Float64Array;
}

/** @throws Error where the matrix is not positive definite */
export const factorise = (matrix: Float64Array, size: number): Factor => {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * size + j];
      for (let k = 0; k < j; k++) sum -= lower[i * size + k] * lower[j * size + k];
      if (i !== j) lower[i * size + j] = sum / lower[j * size + j];
      else if (sum > 0) lower[i * size + i] = Math.sqrt(sum);
      else throw new Error(`unknown ${i} is not determined by the readings`);
    }
  }
  return { size, lower };
};

/** y of L y = b. */
export const forward = ({ size, lower }: Factor, b: Float64Array): Float64Array => {
  const y = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = b[i];
    for (let k = 0; k < i; k++) sum -= lower[i * size + k] * y[k];
    y[i] = sum / lower[i * size + i];
  }
  return y;
};

/** x of L L' x = b. */
export const solveWith = (factor: Factor, b: Float64Array): Float64Array => {
  const { size, lower } = factor;
  const x = forward(factor, b);
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i];
    for (let k = i + 1; k < size; k++) sum -= lower[k * size + i] * x[k];
    x[i] = sum / lower[i * size + i];
  }
  return x;
};
