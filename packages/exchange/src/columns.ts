import { inMetres, type ReadNumber, readNumber } from './number.ts';
import type { Table, TableRow } from './table.ts';
import { TableError } from './trouble.ts';

/** A field that a file may have: under which names, and what it holds. */
export interface FieldNames {
  /** The header this project writes: "depth_from_m". */
  readonly header: string;
  /** Words of headings that mean it (heading.ts), best first. */
  readonly words: readonly string[];
  readonly isNeeded: boolean;
}

export interface Column {
  /** From 0. */
  readonly index: number;
  /** Header as it stands in the file. */
  readonly header: string;
  /** Metres per unit of the figures; 1 where the header names no unit. */
  readonly metres: number;
}

/**
 * Finds the columns of a table by their headers.
 *
 * @throws TableError where a needed one is missing, one is there twice, or a unit is no length
 */
export const findColumns = <Name extends string>(
  table: Table,
  fields: Readonly<Record<Name, FieldNames>>,
  lengths: readonly NoInfer<Name>[],
): Readonly<Partial<Record<Name, Column>>> => {
  const found: Partial<Record<Name, Column>> = {};
  const taken = new Set<number>();
  for (const name of Object.keys(fields) as Name[]) {
    const { header, words, isNeeded } = fields[name];
    const index = firstWith(table, words, taken);
    if (index === null) {
      if (isNeeded)
        throw new TableError(
          `there is no column "${header}"`,
          { file: table.file, line: headerLine(table) },
          `The header has: ${table.headings.map(({ text }) => text).join(', ')}. Name the column ${header}${
            lengths.includes(name) ? ' (or another unit: _cm, _mm)' : ''
          }.`,
        );
      continue;
    }
    taken.add(index);
    found[name] = columnAt(table, index, lengths.includes(name));
  }
  return found;
};

/** @throws TableError when the header's unit is no unit of length and `isLength` */
export const columnAt = (table: Table, index: number, isLength: boolean): Column => {
  const heading = table.headings[index]!;
  if (isLength && heading.unit !== null && heading.metres === null)
    throw new TableError(
      `the unit "${heading.unit}" is not known for a length`,
      { file: table.file, line: headerLine(table), column: index + 1, header: heading.text },
      'Use m, dm, cm, mm, km or ft.',
    );
  return { index, header: heading.text, metres: isLength ? (heading.metres ?? 1) : 1 };
};

const firstWith = (table: Table, words: readonly string[], taken: ReadonlySet<number>): number | null => {
  for (const word of words) {
    const fitting = table.headings.flatMap((heading, i) =>
      heading.words === word && !taken.has(i) ? [i] : [],
    );
    if (fitting.length > 1)
      throw new TableError(
        `the column "${table.headings[fitting[1]!]!.text}" is there ${fitting.length} times`,
        { file: table.file, line: headerLine(table), column: fitting[1]! + 1 },
        'Rename or take out all but one.',
      );
    if (fitting.length === 1) return fitting[0]!;
  }
  return null;
};

const headerLine = (table: Table): number => Math.max(1, (table.rows[0]?.line ?? 2) - 1);

export const cell = (row: TableRow, column: Column | undefined): string =>
  column === undefined ? '' : row.cells[column.index]!;

/** Words that stand for an empty cell. */
const empty = new Set(['', '-', '--', 'na', 'n/a', 'nan', 'null']);

/** @throws TableError for text that is no number; null where the cell is empty */
export const printedIn = (table: Table, row: TableRow, column: Column | undefined): ReadNumber | null => {
  const text = cell(row, column);
  if (column === undefined || empty.has(text.toLowerCase())) return null;
  const number = readNumber(text);
  if (number === null) throw cellError(table, row, column, `"${text}" is not a number`, numberMend(text));
  return number;
};

/** In metres. @throws TableError for text that is no number; null where the cell is empty */
export const metresIn = (table: Table, row: TableRow, column: Column | undefined): number | null => {
  const number = printedIn(table, row, column);
  return number === null ? null : inMetres(number.value, column!.metres);
};

export const cellError = (
  table: Table,
  row: TableRow,
  column: Column,
  what: string,
  mend: string,
): TableError =>
  new TableError(
    what,
    { file: table.file, line: row.line, column: column.index + 1, header: column.header },
    mend,
  );

const numberMend = (text: string): string =>
  /^[\d.,' ]+$/.test(text)
    ? 'Write it with one decimal mark and without separators of thousands.'
    : /^[\d.,]+ *\p{L}+$/u.test(text)
      ? 'Write the unit in the header (length_cm) and the number alone in the cell.'
      : 'Write a number, or leave the cell empty.';
