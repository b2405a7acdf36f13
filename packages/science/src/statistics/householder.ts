/** Orthogonal factorisation of a matrix whose columns were divided by their lengths: A S P = Q R. */
export interface Factorised {
  readonly rows: number;
  readonly columns: number;
  /** Reflectors on and below the diagonal, R above it, column by column. */
  readonly packed: Float64Array;
  /** Diagonal of R. */
  readonly diagonal: Float64Array;
  /** Which column of A stands where. */
  readonly order: Int32Array;
  /** Lengths of the columns of A, in their own order; 1 where a column is nothing but zeros. */
  readonly lengths: Float64Array;
}

const lengthOf = (packed: Float64Array, from: number, to: number): number => {
  let largest = 0;
  for (let i = from; i < to; i++) largest = Math.max(largest, Math.abs(packed[i]));
  if (largest === 0) return 0;
  let sum = 0;
  for (let i = from; i < to; i++) sum += (packed[i] / largest) ** 2;
  return largest * Math.sqrt(sum);
};

const swapColumns = (packed: Float64Array, m: number, a: number, b: number): void => {
  if (a === b) return;
  for (let i = 0; i < m; i++) [packed[a * m + i], packed[b * m + i]] = [packed[b * m + i], packed[a * m + i]];
};

/** v less the part along the k-th reflector, twice. */
const reflect = (
  { rows: m, packed }: { rows: number; packed: Float64Array },
  k: number,
  v: Float64Array,
  at: number,
) => {
  const pivot = packed[k * m + k];
  if (pivot === 0) return;
  let sum = 0;
  for (let i = k; i < m; i++) sum += packed[k * m + i] * v[at + i];
  const by = sum / pivot;
  for (let i = k; i < m; i++) v[at + i] -= by * packed[k * m + i];
};

/**
 * QR by reflections (A. S. Householder 1958) with the longest column next (P. Businger & G. H. Golub 1965, Numer. Math. 7,
 * 269-276), after dividing each column by its length.
 *
 * @param matrix column by column, at least as many rows as columns; stays as it is
 */
export const factorise = (matrix: Float64Array, rows: number, columns: number): Factorised => {
  const packed = matrix.slice();
  const lengths = new Float64Array(columns);
  for (let j = 0; j < columns; j++) {
    lengths[j] = lengthOf(packed, j * rows, (j + 1) * rows) || 1;
    for (let i = j * rows; i < (j + 1) * rows; i++) packed[i] /= lengths[j];
  }
  const order = Int32Array.from({ length: columns }, (_, j) => j);
  const diagonal = new Float64Array(columns);
  const made: Factorised = { rows, columns, packed, diagonal, order, lengths };
  for (let k = 0; k < columns; k++) {
    let longest = k;
    let length = -1;
    for (let j = k; j < columns; j++) {
      const left = lengthOf(packed, j * rows + k, (j + 1) * rows);
      if (left > length) [longest, length] = [j, left];
    }
    swapColumns(packed, rows, k, longest);
    [order[k], order[longest]] = [order[longest], order[k]];
    const at = k * rows;
    if (length === 0) continue;
    const signed = packed[at + k] < 0 ? -length : length;
    for (let i = k; i < rows; i++) packed[at + i] /= signed;
    packed[at + k] += 1;
    diagonal[k] = -signed;
    for (let j = k + 1; j < columns; j++) reflect(made, k, packed, j * rows);
  }
  return made;
};

/** Columns that the machine can tell apart: those whose diagonal is not lost in the rounding of the first. */
export const rankOf = ({ rows, diagonal }: Factorised): number => {
  const least = rows * Number.EPSILON * Math.abs(diagonal[0]);
  const first = diagonal.findIndex((r) => !(Math.abs(r) > least));
  return first === -1 ? diagonal.length : first;
};

/** v becomes Q^T v. */
export const rotate = (qr: Factorised, v: Float64Array): void => {
  for (let k = 0; k < qr.columns; k++) reflect(qr, k, v, 0);
};

/** v becomes Q v. */
export const rotateBack = (qr: Factorised, v: Float64Array): void => {
  for (let k = qr.columns - 1; k >= 0; k--) reflect(qr, k, v, 0);
};

/** Solves R z = v for the first `columns` of v, in place. */
export const solveUpper = ({ rows: m, columns: n, packed, diagonal }: Factorised, v: Float64Array): void => {
  for (let k = n - 1; k >= 0; k--) {
    let sum = v[k];
    for (let j = k + 1; j < n; j++) sum -= packed[j * m + k] * v[j];
    v[k] = sum / diagonal[k];
  }
};

/** Solves R^T z = v for the first `columns` of v, in place. */
export const solveLower = ({ rows: m, columns: n, packed, diagonal }: Factorised, v: Float64Array): void => {
  for (let k = 0; k < n; k++) {
    let sum = v[k];
    for (let j = 0; j < k; j++) sum -= packed[k * m + j] * v[j];
    v[k] = sum / diagonal[k];
  }
};

/** From the order and scale of the factorisation back to those of the matrix. */
export const toColumns = ({ columns, order, lengths }: Factorised, z: Float64Array): number[] => {
  const out = new Array<number>(columns).fill(0);
  for (let k = 0; k < columns; k++) out[order[k]] = z[k] / lengths[order[k]];
  return out;
};

/** (A^T A)^-1 = S P R^-1 R^-T P^T S, row by row. */
export const inverseNormal = (qr: Factorised): number[][] => {
  const { columns: n } = qr;
  // rows of R^-T, solved one by one, are columns of R^-1
  const rootRows = Array.from({ length: n }, (_, k) => {
    const unit = new Float64Array(n);
    unit[k] = 1;
    solveUpper(qr, unit);
    return toColumns(qr, unit);
  });
  return Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (__, j) => rootRows.reduce((sum, root) => sum + root[i] * root[j], 0)),
  );
};
