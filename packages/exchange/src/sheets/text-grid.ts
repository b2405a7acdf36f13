import Papa from 'papaparse';
import { decodeText, type Encoding } from '../decode.ts';
import { TableError } from '../trouble.ts';
import type { Grid, GridRow } from './cells.ts';
import { limits, tooLarge } from './limits.ts';
import { findSeparator, type Separator } from './separator.ts';

export interface TextGrid {
  readonly grid: Grid;
  readonly encoding: Encoding;
  readonly separator: Separator | null;
  /** Lines that begin with #, without it. */
  readonly comments: readonly string[];
}

/**
 * Cells of a text file: RFC 4180 quoting, any separator, any of the line ends, UTF-8, UTF-16 or Windows-1252.
 *
 * @throws TableError for bytes that are no text, a quotation mark that is never closed, more cells than `limits` allow
 */
export const readTextGrid = (bytes: Uint8Array, file: string): TextGrid => {
  const { text, encoding } = decodeText(bytes, file);
  const separator = findSeparator(text);
  checkSize(text, separator ?? '\n', file);
  const comments: string[] = [];
  const rows: GridRow[] = [];
  const keep = (number: number, lines: number, cells: readonly string[]): void => {
    const trimmed = cells.map((cell) => cell.trim().slice(0, limits.text));
    while (trimmed.at(-1) === '') trimmed.pop();
    if (trimmed.length === 0) return;
    if (trimmed[0]!.startsWith('#') && !/^#(?:\s*(?:no|nr)\.?)?$/i.test(trimmed[0]!))
      comments.push(trimmed.join(' ').slice(1).trim());
    else rows.push({ number, lines, cells: trimmed });
  };
  if (separator === null || separator === ' ') {
    text.split('\n').forEach((line, i) => {
      keep(i + 1, 1, separator === null ? [line] : line.trim().split(/\s+/));
    });
    if (separator === ' ') putBackTogether(rows, text);
  } else for (const [number, lines, cells] of records(text, separator, file)) keep(number, lines, cells);
  if (/^sep=/i.test(text) && separator !== null) rows.shift();
  return {
    grid: { sheet: null, isHidden: false, rows, merges: [] },
    encoding,
    separator,
    comments,
  };
};

/** Lines with another number of words than most have lost their columns: one cell each, so that nothing slips. */
const putBackTogether = (rows: GridRow[], text: string): void => {
  const often = new Map<number, number>();
  for (const { cells } of rows) often.set(cells.length, (often.get(cells.length) ?? 0) + 1);
  const usual = [...often.entries()].sort((a, b) => b[1] - a[1])[0]?.[0];
  const lines = text.split('\n');
  rows.forEach((row, i) => {
    if (row.cells.length !== usual)
      rows[i] = { ...row, cells: [lines[row.number - 1]!.trim().slice(0, limits.text)] };
  });
};

/** Looked at before anything is cut: separators inside quotation marks count too, so it errs towards refusing. */
const checkSize = (text: string, separator: string, file: string): void => {
  let inLine = 0;
  let total = 0;
  const mark = separator.charCodeAt(0);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === mark) {
      inLine += 1;
      total += 1;
      if (inLine >= limits.columns) throw tooLarge(file, `a line has more than ${limits.columns} cells`);
    }
    if (code === 10) {
      inLine = 0;
      total += 1;
    }
    if (total > limits.cells) throw tooLarge(file, `the file has more than ${limits.cells} cells`);
  }
};

/** Records with the line that each begins in and how many it takes. */
function* records(
  text: string,
  separator: string,
  file: string,
): Generator<readonly [line: number, lines: number, cells: readonly string[]]> {
  const { data, errors } = Papa.parse<string[]>(text, { delimiter: separator, newline: '\n' });
  const bad = errors.find((error) => error.type === 'Quotes');
  let line = 1;
  let index = 0;
  for (const cells of data) {
    if (bad !== undefined && bad.row === index)
      throw new TableError(
        'a quotation mark is opened and never closed, or closed in the middle of a cell',
        { file, line },
        'Close it, or write a quotation mark inside a quoted cell twice.',
      );
    let lines = 1;
    for (const cell of cells)
      for (let at = cell.indexOf('\n'); at >= 0; at = cell.indexOf('\n', at + 1)) lines += 1;
    yield [line, lines, cells];
    line += lines;
    index += 1;
  }
}
