import { TableError } from '../trouble.ts';
import type { Unread } from './cells.ts';
import { findTables } from './find-tables.ts';
import { limits, tooLarge } from './limits.ts';
import type { ReadSheets, SheetTable } from './tables.ts';
import { readTextGrid } from './text-grid.ts';
import { openArchive } from './xlsx-archive.ts';
import { readWorkbook } from './xlsx-book.ts';
import { readXlsxSheet } from './xlsx-sheet.ts';

/**
 * Everything that a table file holds: CSV, semicolons, tabs, bars, tables set in columns; XLSX with its sheets.
 * UTF-8, UTF-16 and Windows-1252, any line ends. Titles above, headings of several lines, lines of units, several
 * tables on a sheet.
 *
 * Pure, but not quick to refuse a hostile file of allowed size: run it in a worker with limits of memory and time.
 *
 * @param name of the file, for places
 * @throws TableError for a file that cannot be used at all
 */
export const readSheets = (bytes: Uint8Array, name: string): ReadSheets => {
  if (bytes.length === 0)
    throw new TableError('the file is empty', { file: name }, 'It needs a heading and rows below it.');
  if (bytes.length > limits.bytes)
    throw tooLarge(name, `the file is larger than ${limits.bytes / 2 ** 20} MB`);
  const read = isPacked(bytes) ? readXlsx(bytes, name) : readText(bytes, name);
  if (read.tables.every(({ rows }) => rows.length === 0))
    throw new TableError(
      'there is no table in it',
      { file: name },
      'A table has a row with the names of its columns (at least two) and rows below it.',
    );
  return read;
};

const isPacked = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b;
/** Compound file: spreadsheets of before 2007, and XLSX locked with a password. */
const isCompound = (bytes: Uint8Array): boolean =>
  [0xd0, 0xcf, 0x11, 0xe0].every((byte, i) => bytes[i] === byte);

const readText = (bytes: Uint8Array, name: string): ReadSheets => {
  if (isCompound(bytes))
    throw new TableError(
      'this is a spreadsheet of the old kind (XLS), or one locked with a password',
      { file: name },
      'Open it in a spreadsheet program and save it as XLSX without a password, or as CSV.',
    );
  const { grid, encoding, comments } = readTextGrid(bytes, name);
  const tables = findTables(grid);
  const [first, ...rest] = tables;
  const remarks =
    encoding === 'Windows-1252'
      ? ['The file is no UTF-8: it was read as Windows-1252 (Latin-1). Look at letters with accents.']
      : [];
  const withComments: readonly SheetTable[] =
    first === undefined ? [] : [{ ...first, title: [...comments, ...first.title] }, ...rest];
  return { file: name, tables: withComments, unread: [], remarks };
};

const readXlsx = (bytes: Uint8Array, name: string): ReadSheets => {
  const archive = openArchive(bytes, name);
  const book = readWorkbook(archive, name);
  const tables: SheetTable[] = [];
  const unread: Unread[] = [];
  const remarks: string[] = [];
  for (const sheet of book.sheets) {
    const text = archive.text(sheet.path);
    if (text === null) continue;
    const read = readXlsxSheet(text, sheet, book, name);
    const found = findTables(read.grid);
    tables.push(...found);
    unread.push(...read.unread);
    const hidden = [
      read.hiddenRows === 0 ? null : `${read.hiddenRows} hidden ${read.hiddenRows === 1 ? 'row' : 'rows'}`,
      read.hiddenColumns === 0
        ? null
        : `${read.hiddenColumns} hidden ${read.hiddenColumns === 1 ? 'column' : 'columns'}`,
    ].filter((part) => part !== null);
    if (sheet.isHidden) remarks.push(`Sheet ${sheet.name} is hidden in the workbook.`);
    if (hidden.length > 0)
      remarks.push(`Sheet ${sheet.name} has ${hidden.join(' and ')}; they were read too.`);
    if (found.length === 0 && read.grid.rows.length > 0)
      remarks.push(`Sheet ${sheet.name} holds no table, only text.`);
  }
  if (book.dates === 1904) remarks.push('The workbook counts its days from 1904.');
  return { file: name, tables, unread, remarks };
};
