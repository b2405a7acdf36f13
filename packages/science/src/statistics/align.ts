import { mustLie, QuantityError } from '../quantity-error.ts';

/** Cost of putting sample i of the one series beside sample j of the other; 0 or more. */
export type Cost = (i: number, j: number) => number;

export interface AlignOptions {
  /**
   * How often the cost of a diagonal step counts: 1 ("symmetric1"), or 2 ("symmetric2", where every path adds up to n + m
   * counts, so that the sum can be divided by them).
   */
  readonly diagonal: 1 | 2;
  /** Largest |i - j| that a path may reach (Sakoe & Chiba's band); left out, none. */
  readonly band?: number;
}

export interface Alignment {
  readonly cost: number;
  /** Cost over n + m; null where diagonal steps count once (paths differ in their counts then). */
  readonly normalised: number | null;
  /** Pairs of samples from the first to the last, both of which are bound. */
  readonly path: readonly (readonly [i: number, j: number])[];
}

const where = 'Sakoe & Chiba 1978';

const check = (n: number, m: number, band: number): void => {
  mustLie(where, 'samples of the first series', n, 1, 1e7, '');
  mustLie(where, 'samples of the second series', m, 1, 1e7, '');
  if (!(band >= Math.abs(n - m)))
    throw new QuantityError(
      where,
      `the band is ${band} wide`,
      `${Math.abs(n - m)} or more: the lengths differ by as much`,
    );
};

const positive = (c: number, i: number, j: number): number => {
  if (c >= 0 && c < Number.POSITIVE_INFINITY) return c;
  throw new QuantityError(where, `the cost of ${i + 1} beside ${j + 1} is ${c}`, '0 or more');
};

/** Runs the recurrence row by row; `came` hears of every cell whether from above (1), left (2) or the diagonal (3). */
const recurrence = (
  n: number,
  m: number,
  cost: Cost,
  { diagonal, band = Number.POSITIVE_INFINITY }: AlignOptions,
  came: (i: number, j: number, from: 1 | 2 | 3) => void,
): number => {
  check(n, m, band);
  let above = new Float64Array(m).fill(Number.POSITIVE_INFINITY);
  let row = new Float64Array(m).fill(Number.POSITIVE_INFINITY);
  for (let i = 0; i < n; i++) {
    row.fill(Number.POSITIVE_INFINITY);
    const last = Math.min(m - 1, i + band);
    for (let j = Math.max(0, i - band); j <= last; j++) {
      const c = positive(cost(i, j), i, j);
      if (i === 0 && j === 0) {
        row[0] = c;
        continue;
      }
      const fromAbove = above[j] + c;
      const fromLeft = j === 0 ? Number.POSITIVE_INFINITY : row[j - 1] + c;
      const across = j === 0 ? Number.POSITIVE_INFINITY : above[j - 1] + diagonal * c;
      const least = Math.min(across, fromAbove, fromLeft);
      row[j] = least;
      came(i, j, least === across ? 3 : least === fromAbove ? 1 : 2);
    }
    [above, row] = [row, above];
  }
  return above[m - 1];
};

/**
 * Least cost of bringing two series together, each sample beside one or more of the other, order kept: D(i, j) is c(i, j)
 * plus the least of D(i-1, j), D(i, j-1), and D(i-1, j-1) + (w - 1) c(i, j). The first cell counts once.
 *
 * Source: H. Sakoe & S. Chiba 1978, "Dynamic programming algorithm optimization for spoken word recognition", IEEE Trans.
 * Acoust. Speech Signal Process. 26, 43-49, doi:10.1109/TASSP.1978.1163055, table I, P = 0 (from memory).
 * Two rows of memory.
 *
 * @throws QuantityError for empty series, a negative cost, a band too narrow for both ends
 */
export const alignmentCost = (n: number, m: number, cost: Cost, options: AlignOptions): number =>
  recurrence(n, m, cost, options, () => {});

/** As `alignmentCost`, with the path: one byte a cell. Of equal ways the diagonal one is taken, then that from above. */
export const align = (n: number, m: number, cost: Cost, options: AlignOptions): Alignment => {
  if (n * m > 2e9)
    throw new QuantityError(
      where,
      `${n} by ${m} samples`,
      '2e9 cells; ask for the cost alone, or fewer samples',
    );
  const steps = new Uint8Array(Math.max(n * m, 0));
  const total = recurrence(n, m, cost, options, (i, j, from) => {
    steps[i * m + j] = from;
  });
  const path: (readonly [number, number])[] = [];
  for (let [i, j] = [n - 1, m - 1]; i >= 0 && j >= 0; ) {
    path.push([i, j]);
    const from = steps[i * m + j];
    if (from === 0) break;
    if (from !== 2) i--;
    if (from !== 1) j--;
  }
  return { cost: total, normalised: options.diagonal === 2 ? total / (n + m) : null, path: path.reverse() };
};

/**
 * Number of paths through n by m cells: the Delannoy number D(n - 1, m - 1).
 *
 * @throws QuantityError where it is beyond whole numbers that a machine can hold
 */
export const pathCount = (n: number, m: number): number => {
  check(n, m, Number.POSITIVE_INFINITY);
  let above = new Array<number>(m).fill(1);
  for (let i = 1; i < n; i++) {
    const row = [1];
    for (let j = 1; j < m; j++) row.push(above[j] + above[j - 1] + row[j - 1]);
    above = row;
  }
  if (!Number.isSafeInteger(above[m - 1]))
    throw new QuantityError(where, `${n} by ${m} cells have more paths than can be counted`, 'fewer samples');
  return above[m - 1];
};
