/** Veltkamp's splitter for 53 bits. */
const SPLITTER = 134217729;

/**
 * start + sum of x_i y_i as if computed with twice the digits and then rounded; of matrices column by column, hence the
 * steps. Products split without error (T. J. Dekker 1971), sums too (D. E. Knuth), both errors carried along (T. Ogita, S. M.
 * Rump, S. Oishi 2005, "Accurate sum and dot product", SIAM J. Sci. Comput. 26, 1955-1988, algorithm 5.3).
 */
export const preciseDot = (
  start: number,
  x: Float64Array,
  xAt: number,
  xStep: number,
  y: Float64Array,
  yAt: number,
  n: number,
): number => {
  let sum = start;
  let carried = 0;
  for (let i = 0; i < n; i++) {
    const a = x[xAt + i * xStep];
    const b = y[yAt + i];
    const product = a * b;
    const wideA = SPLITTER * a;
    const highA = wideA - (wideA - a);
    const lowA = a - highA;
    const wideB = SPLITTER * b;
    const highB = wideB - (wideB - b);
    const lowB = b - highB;
    const lost = lowA * lowB - (product - highA * highB - lowA * highB - highA * lowB);
    const next = sum + product;
    const part = next - sum;
    carried += sum - (next - part) + (product - part) + lost;
    sum = next;
  }
  return sum + carried;
};
