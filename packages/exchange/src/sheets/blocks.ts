import { type Cell, type Grid, type GridRow, isBlank, type Merge } from './cells.ts';

/** A rectangle of a sheet that is not cut through by a blank row or column. */
export interface Block {
  /** Columns from 0, both counted in. */
  readonly left: number;
  readonly right: number;
  readonly rows: readonly GridRow[];
}

export const cellAt = (row: GridRow, column: number): Cell => row.cells[column] ?? '';

/** Blocks of a sheet from the top, left before right. */
export const findBlocks = (grid: Grid): readonly Block[] => {
  const bands: GridRow[][] = [];
  for (const row of grid.rows) {
    const last = bands.at(-1)?.at(-1);
    // rows below a merged cell are not blank, they belong to it
    const isNext =
      last !== undefined &&
      (row.number === last.number + last.lines ||
        grid.merges.some((merge) => spans(merge, last.number, row.number)));
    if (isNext) bands.at(-1)!.push(row);
    else bands.push([row]);
  }
  return bands.flatMap(sideBySide);
};

const spans = ({ top, bottom }: Merge, from: number, to: number): boolean => top <= from && bottom >= to - 1;

/** Cuts a band at its blank columns where the parts are tables of their own, not one table with a spacer. */
const sideBySide = (rows: readonly GridRow[]): readonly Block[] => {
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  const isUsed = new Array<boolean>(width).fill(false);
  for (const { cells } of rows)
    cells.forEach((cell, column) => {
      if (cell !== '') isUsed[column] = true;
    });
  const parts: { left: number; right: number }[] = [];
  for (let column = 0; column < width; column++) {
    if (!isUsed[column]) continue;
    const last = parts.at(-1);
    if (last?.right === column - 1) last.right = column;
    else parts.push({ left: column, right: column });
  }
  const blocks: { left: number; right: number }[] = [];
  for (const part of parts) {
    const before = blocks.at(-1);
    if (before !== undefined && !areTwo(rows, before, part)) before.right = part.right;
    else blocks.push(part);
  }
  return blocks.map(({ left, right }) => ({
    left,
    right,
    rows: rows.filter((row) => hasContent(row, left, right)),
  }));
};

const hasContent = (row: GridRow, left: number, right: number): boolean => {
  for (let column = left; column <= right; column++) if (!isBlank(cellAt(row, column))) return true;
  return false;
};

type Part = { readonly left: number; readonly right: number };

/** Two tables: both at least two columns wide, and they begin or end in other rows, or share a heading. */
const areTwo = (rows: readonly GridRow[], a: Part, b: Part): boolean => {
  if (a.left === a.right || b.left === b.right) return false;
  // a single cell is a title, which says nothing about where the table beside begins
  const filled = (row: GridRow, { left, right }: Part): number => {
    let count = 0;
    for (let column = left; column <= right; column++) if (!isBlank(cellAt(row, column))) count += 1;
    return count;
  };
  const extent = (part: Part): readonly [number, number] => {
    const own = rows.filter((row) => filled(row, part) > 1);
    return [own[0]?.number ?? 0, own.at(-1)?.number ?? 0];
  };
  const [firstA, lastA] = extent(a);
  const [firstB, lastB] = extent(b);
  if (firstA === 0 || firstB === 0) return false;
  if (firstA !== firstB || lastA !== lastB) return true;
  const header = rows.find(({ number }) => number === firstA)!;
  const words = (part: Part) => {
    const list: string[] = [];
    for (let column = part.left; column <= part.right; column++) {
      const cell = cellAt(header, column);
      if (typeof cell === 'string' && cell !== '') list.push(cell.toLowerCase());
    }
    return list;
  };
  const left = new Set(words(a));
  return words(b).some((word) => left.has(word));
};
