import { decodeText, encodingOf } from '../decode.ts';
import { TableError } from '../trouble.ts';
import type { Unread } from './cells.ts';
import { ColumnBuilder } from './column-builder.ts';
import { findTables } from './find-tables.ts';
import { isNumberLike, type Mark, saysNothing } from './numerals.ts';
import { scanRows } from './scan-rows.ts';
import type { SheetColumn } from './tables.ts';
import { readTextGrid } from './text-grid.ts';

/** How a cell of a column of figures came out. */
export const said = { nothing: 0, value: 1, below: 2, above: 3, unreadable: 4 } as const;

/** One column, a row's cell at the row's index. */
export type TypedColumn = SheetColumn &
  (
    | {
        readonly holds: 'figures';
        /** As written, in the heading's unit; the limit where the cell says "<0.5"; NaN where it says nothing. */
        readonly values: Float64Array;
        /** One of `said` for each row. */
        readonly says: Uint8Array;
        /** The decimal mark; 'ask' where no cell proves it: then the figures are read as if it were decimal. */
        readonly mark: Mark | 'either' | 'ask' | null;
      }
    | {
        readonly holds: 'words';
        /** Which text each row says; 0 is the empty one. */
        readonly codes: Uint32Array;
        readonly texts: { readonly size: number; text(code: number): string };
      }
  );

/** A table of many rows as typed columns. */
export interface TypedTable {
  readonly file: string;
  readonly title: readonly string[];
  readonly rows: number;
  readonly columns: readonly TypedColumn[];
  /** Cells that could not be read: how many, and the first of them. */
  readonly unreadable: number;
  readonly unread: readonly Unread[];
}

/** Bytes from the top in which heading, units, separator and the first rows are looked for. */
const headBytes = 2 ** 17;
/** Unread cells that are named. */
const named = 1_000;

/**
 * Reads a large text table (a laboratory's) in one pass over its bytes: heading and units as `readSheets` finds
 * them, figures as doubles, limits of detection ("<0.5", "> 3") apart from values, blanks apart from zero. Decimal
 * comma or point is decided by all cells of each column; separators of thousands are not guessed at.
 *
 * @throws TableError for a file without a table
 */
export const readColumns = (input: Uint8Array, file: string): TypedTable => {
  const encoding = encodingOf(input);
  const isWide = encoding === 'UTF-16LE' || encoding === 'UTF-16BE';
  const bytes = isWide ? new TextEncoder().encode(decodeText(input, file).text) : input;
  const head = bytes.subarray(0, endOfHead(bytes));
  const { grid, separator, comments } = readTextGrid(head, file);
  const table = findTables(grid)[0];
  if (table === undefined || table.rows.length === 0 || separator === null || separator === ' ')
    throw new TableError(
      'there is no table in it',
      { file },
      'It needs a row with the names of its columns and rows below it, cells separated by comma, semicolon, tab or bar.',
    );
  const first = table.rows[0]!.row;
  const start = startOfLine(bytes, first);
  const perRow = (head.length - Math.min(start, head.length)) / Math.max(1, table.rows.length);
  const room = Math.ceil((1.05 * (bytes.length - start)) / Math.max(perRow, 2)) + 64;
  const label = encoding === 'Windows-1252' ? 'windows-1252' : 'utf-8';
  const width = Math.max(...table.columns.map(({ column }) => column));
  const builders: (ColumnBuilder | null)[] = new Array(width).fill(null);
  table.columns.forEach(({ column }, i) => {
    const cells = table.rows.map((row) => row.cells[i]!).filter((cell) => !saysNothing(cell));
    const figures = cells.filter(isNumberLike).length;
    const holds = cells.length === 0 ? 'unknown' : 2 * figures > cells.length ? 'figures' : 'words';
    builders[column - 1] = new ColumnBuilder(bytes, label, holds, room);
  });
  const unread: Unread[] = [];
  let unreadable = 0;
  const rows = scanRows(bytes, start, first, separator.charCodeAt(0), builders, (line, column, what) => {
    unreadable += 1;
    if (unread.length >= named) return;
    const header = table.columns.find((one) => one.column === column)?.text;
    const place = { sheet: null, row: line, column, ...(header !== undefined && { header }) };
    unread.push({ place, what, mend: 'Write one figure, "<" and a limit, or leave the cell empty.' });
  });
  const built = table.columns.map(({ column }) => builders[column - 1]!.finish(rows));
  const marks = built.map((one) => (one.holds === 'figures' ? one.evidence : null));
  return {
    file,
    title: [...comments, ...table.title],
    rows,
    unreadable,
    unread,
    columns: table.columns.map((column, i): TypedColumn => {
      const one = built[i]!;
      if (one.holds === 'words') return { ...column, holds: 'words', codes: one.codes, texts: one.texts };
      const others = marks.filter((mark, j) => mark !== null && j !== i).map((mark) => mark!);
      return { ...column, holds: 'figures', values: one.values, says: one.says, mark: one.decide(others) };
    }),
  };
};

/** End of the last whole row within the head: of a line outside of quotation marks. The whole file where it is short. */
const endOfHead = (bytes: Uint8Array): number => {
  if (bytes.length <= headBytes) return bytes.length;
  let isQuoted = false;
  let end = 0;
  let lastLine = 0;
  for (let at = 0; at < headBytes; at++) {
    const code = bytes[at]!;
    if (code === 0x22) isQuoted = !isQuoted;
    if (code !== 10 && code !== 13) continue;
    lastLine = at + 1;
    if (!isQuoted) end = at + 1;
  }
  // a mark that is never closed (an inch) quotes nothing
  if (2 * end < headBytes) end = lastLine;
  return end === 0 ? bytes.length : end;
};

/** Where a line begins, counted from 1, whatever ends the lines. */
const startOfLine = (bytes: Uint8Array, line: number): number => {
  let at = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  for (let left = line - 1; left > 0 && at < bytes.length; at++) {
    if (bytes[at] === 10 || (bytes[at] === 13 && bytes[at + 1] !== 10)) left -= 1;
  }
  return at;
};
