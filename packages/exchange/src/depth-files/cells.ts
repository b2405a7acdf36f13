import { type Column, cell, cellError, metresIn } from '../columns.ts';
import { readNumber } from '../number.ts';
import type { Table, TableRow } from '../table.ts';
import { TableError } from '../trouble.ts';

/** "007", "7" and "7.0" are one run; what is no number is compared as written. */
export const runKey = (text: string): string => {
  const number = readNumber(text);
  return number === null ? text.toLowerCase() : String(number.value);
};

/** A cell that has to hold a name. @throws TableError where it is empty */
export const named = (table: Table, row: TableRow, column: Column, what: string): string => {
  const text = cell(row, column);
  if (text === '')
    throw cellError(table, row, column, `the ${what} is empty`, `Write the number of the ${what}.`);
  return text;
};

/** In the order of their numbers where all are whole numbers, else as they stand. */
export const byNumber = <T>(rows: readonly T[], key: (row: T) => string): readonly T[] => {
  const numbers = new Map(rows.map((row) => [row, readNumber(key(row))?.value ?? Number.NaN]));
  if (![...numbers.values()].every(Number.isInteger)) return rows;
  return rows.toSorted((a, b) => numbers.get(a)! - numbers.get(b)!);
};

/** Metres below the zero; null where the cell is empty. @throws TableError for what is negative or no number */
export const depthIn = (table: Table, row: TableRow, column: Column | undefined): number | null => {
  const value = metresIn(table, row, column);
  if (value !== null && value < 0)
    throw cellError(
      table,
      row,
      column!,
      `the depth ${cell(row, column)} is negative`,
      'Depths count down from the zero: write them without a sign.',
    );
  return value;
};

/** A length that can be nothing but 0 or more; null where the cell is empty. @throws TableError */
export const extentIn = (
  table: Table,
  row: TableRow,
  column: Column | undefined,
  what: string,
): number | null => {
  const value = metresIn(table, row, column);
  if (value !== null && value < 0)
    throw cellError(table, row, column!, `${what} is negative`, 'Write it without a sign.');
  return value;
};

/** A reading that a line can't do without. @throws TableError where it is empty */
export const needed = <T>(value: T | null, table: Table, row: TableRow, column: Column, what: string): T => {
  if (value === null)
    throw cellError(table, row, column, `the ${what} is empty`, 'Write it, or take the line out.');
  return value;
};

/** A standard deviation in metres. @throws TableError where it is not above 0 */
export const sdIn = (
  table: Table,
  row: TableRow,
  column: Column | undefined,
  mend: string,
): number | null => {
  const sd = metresIn(table, row, column);
  if (sd !== null && !(sd > 0))
    throw cellError(table, row, column!, 'a standard deviation is larger than 0', mend);
  return sd;
};

/** One word of a short list; null where the cell is empty. @throws TableError for another word */
export const wordIn = <Word extends string>(
  table: Table,
  row: TableRow,
  column: Column | undefined,
  words: readonly Word[],
): Word | null => {
  const text = cell(row, column).toLowerCase();
  if (text === '') return null;
  const word = words.find((one) => one === text);
  if (word === undefined)
    throw cellError(
      table,
      row,
      column!,
      `"${cell(row, column)}" is not one of its words`,
      `Write ${words.join(', ')}, or leave the cell empty.`,
    );
  return word;
};

/** The runs' lines in their file, by key. */
export interface KnownRuns {
  readonly file: string;
  readonly lines: ReadonlyMap<string, number>;
}

/** The key of a run that the table of runs has. @throws TableError where it has not */
export const knownRun = (table: Table, row: TableRow, column: Column, runs: KnownRuns): string => {
  const run = named(table, row, column, 'run');
  const key = runKey(run);
  if (!runs.lines.has(key))
    throw cellError(
      table,
      row,
      column,
      `run ${run} is not in ${runs.file}`,
      `Add a line for it to ${runs.file} (its depths may be empty), or correct the number.`,
    );
  return key;
};

export const noRows = (table: Table, what: string): TableError =>
  new TableError(
    `there are no ${what}, only a header`,
    { file: table.file },
    `Add one line for each of the ${what}.`,
  );
