import type { Metres } from '../units.ts';

/** How a figure stood in the table. */
export interface Printed {
  /** Places after the decimal mark, exponent counted in; negative for "12e3". */
  readonly decimals: number;
  /** Whether a 0 ends the places after the mark ("0.50"). */
  readonly endsInZero: boolean;
}

/** Finer than this no depth is meant, whatever noise a spreadsheet prints (0.30000000000000004). */
const finest = 9;
/** A length of decimals counts as the table's own when at least this share of the figures has it. */
const customary = 0.05;

/**
 * Rounding of every figure of one column: half a unit in its last place.
 *
 * Programs that drop closing zeros print 0.55, 1.1, 1.65, 22: there "1.1" stands for 1.10. A column in which no
 * figure ends in 0 after the mark is read so, and every figure counts to the decimals customary in the column.
 *
 * @param unit metres per unit of the column
 * @returns half units, NaN where the cell is empty
 */
export const halfUnits = (column: readonly (Printed | null)[], unit: Metres = 1): Float64Array => {
  const counts = new Map<number, number>();
  let figures = 0;
  let isStripped = true;
  for (const cell of column) {
    if (cell === null) continue;
    figures += 1;
    counts.set(cell.decimals, (counts.get(cell.decimals) ?? 0) + 1);
    if (cell.endsInZero && cell.decimals > 0) isStripped = false;
  }
  let common = 0;
  for (const [decimals, count] of counts)
    if (decimals <= finest && count >= customary * figures) common = Math.max(common, decimals);
  return Float64Array.from(column, (cell) => {
    if (cell === null) return Number.NaN;
    const decimals = isStripped ? Math.max(cell.decimals, common) : cell.decimals;
    return 0.5 * 10 ** -Math.min(decimals, finest) * unit;
  });
};
