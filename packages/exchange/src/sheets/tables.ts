import { type Cell, columnLetter, isBlank, textOf, type Unread } from './cells.ts';
import type { Header } from './header.ts';

export interface SheetColumn extends Header {
  /** In the sheet or file, from 1. */
  readonly column: number;
}

export interface SheetRow {
  /** In the sheet or file, from 1. */
  readonly row: number;
  /** One per column of the table. */
  readonly cells: readonly Cell[];
  /** Columns (index) whose value here belongs to a merged cell that begins in another row. */
  readonly merged: readonly number[];
}

/** One table of a sheet: a heading and rows. Cells as they stand. */
export interface SheetTable {
  /** Null in a text file. */
  readonly sheet: string | null;
  readonly isHidden: boolean;
  /** Which of the sheet's tables, from 1. */
  readonly number: number;
  /** Lines above the heading that belong to no other table. */
  readonly title: readonly string[];
  /** Row of the heading's first line. */
  readonly headerRow: number;
  readonly columns: readonly SheetColumn[];
  readonly rows: readonly SheetRow[];
}

/** What stands in a file. */
export interface ReadSheets {
  readonly file: string;
  readonly tables: readonly SheetTable[];
  readonly unread: readonly Unread[];
  /** Odd things that were taken: hidden sheets, an encoding that was guessed, formulas. */
  readonly remarks: readonly string[];
}

/** "Runs", "table 2 of sheet Log", "table 1": how a person finds it. */
export const tableName = (table: SheetTable, of: readonly SheetTable[]): string => {
  const isAlone = of.filter(({ sheet }) => sheet === table.sheet).length === 1;
  const sheet = table.sheet === null ? 'the file' : `sheet ${table.sheet}`;
  return isAlone ? sheet : `table ${table.number} of ${sheet} (from ${tablePlace(table)})`;
};

const tablePlace = ({ columns, headerRow, sheet }: SheetTable): string =>
  sheet === null ? `line ${headerRow}` : `${columnLetter(columns[0]!.column)}${headerRow}`;

export const cellsOf = (table: SheetTable, index: number): readonly Cell[] =>
  table.rows.map((row) => row.cells[index]!);

export const isEmptyRow = (row: SheetRow): boolean => row.cells.every((cell) => isBlank(cell));

/** Lower case, blanks single: what headings are recognised by. */
export const headingKey = (text: string): string => text.toLowerCase().replace(/\s+/g, ' ').trim();

export const rowText = (cells: readonly Cell[]): string =>
  cells
    .filter((cell) => !isBlank(cell))
    .map(textOf)
    .join(' ');
