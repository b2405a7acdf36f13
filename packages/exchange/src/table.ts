import Papa from 'papaparse';
import { decodeText, type Encoding } from './decode.ts';
import { type Delimiter, findDelimiter } from './delimiter.ts';
import { type Heading, readHeading } from './heading.ts';
import { TableError } from './trouble.ts';

export interface TableRow {
  /** In the file, from 1. */
  readonly line: number;
  /** Cells as written, blanks around them cut off; as many as there are columns. */
  readonly cells: readonly string[];
}

/** A table as it stands in a file: text only, nothing converted. */
export interface Table {
  readonly file: string;
  readonly encoding: Encoding;
  readonly delimiter: Delimiter;
  readonly headings: readonly Heading[];
  readonly rows: readonly TableRow[];
}

/**
 * Reads a table with one header line from the bytes of a file. Empty lines, lines that begin with #, and lines of a
 * title above the header (they hold no separator) are passed over. RFC 4180 quoting; separators comma, semicolon, tab, bar, or blanks.
 *
 * @throws TableError
 */
export const readTable = (bytes: Uint8Array, file: string): Table => {
  const { text, encoding } = decodeText(bytes, file);
  const start = headerStart(text);
  if (start === null)
    throw new TableError(
      'the file is empty',
      { file },
      'It needs one header line with the names of the columns, and the rows below it.',
    );
  const { body, line, delimiter } = findTable(text.slice(start.at), start.line);
  const rows = delimiter === ' ' ? cutAtBlanks(body, line) : cutAt(body, delimiter, line, file);
  const header = rows.shift()!;
  const width = header.cells.length;
  if (header.cells.every((cell) => cell === '' || /^[+-]?[\d.,]+$/.test(cell)))
    throw new TableError(
      'the first line holds numbers, not the names of the columns',
      { file, line: header.line },
      'Add a header line.',
    );
  let areWhole = true;
  for (const [i, row] of rows.entries()) {
    while (row.cells.length > width && row.cells.at(-1) === '') row.cells.pop();
    if (row.cells.length > width) throw tooWide(row, header, delimiter, file);
    // cells left off at the end of a row are empty ones; a last line that stops in the middle is a broken copy
    const isCutOff = i === rows.length - 1 && i > 0 && delimiter !== ' ' && !text.endsWith('\n');
    if (isCutOff && row.cells.length < width && areWhole)
      throw new TableError(
        `the last line has ${row.cells.length} cells, the header has ${width}: the file looks cut off`,
        { file, line: row.line, column: row.cells.length + 1 },
        'Copy the file again, or complete the line.',
      );
    if (row.cells.length < width) areWhole = false;
    while (row.cells.length < width) row.cells.push('');
  }
  return { file, encoding, delimiter, headings: header.cells.map(readHeading), rows };
};

interface OpenRow {
  readonly line: number;
  readonly cells: string[];
}

/** First line that is neither empty nor a comment. */
const headerStart = (text: string): { readonly at: number; readonly line: number } | null => {
  let at = 0;
  for (let line = 1; at < text.length; line++) {
    const end = text.indexOf('\n', at);
    const content = text.slice(at, end < 0 ? text.length : end).trim();
    if (content !== '' && !content.startsWith('#')) return { at, line };
    if (end < 0) break;
    at = end + 1;
  }
  return null;
};

/** Lines of a title above the header. */
const titleLines = 20;

/** Where the header stands and what separates cells: a title above it holds no separator that cuts what follows. */
const findTable = (text: string, firstLine: number) => {
  let body = text;
  for (let skipped = 0; skipped < titleLines; skipped++) {
    const delimiter = findDelimiter(body);
    const end = body.indexOf('\n');
    const header = end < 0 ? body : body.slice(0, end);
    // numbers with decimal commas below a header set in columns are no header
    const isHeader = skipped === 0 || header.split(delimiter).every((cell) => /\p{L}/u.test(cell));
    if (delimiter !== ' ' && isHeader) return { body, line: firstLine + skipped, delimiter };
    if (end < 0) break;
    body = body.slice(end + 1);
  }
  return { body: text, line: firstLine, delimiter: ' ' as const };
};

const cutAt = (text: string, delimiter: string, firstLine: number, file: string): OpenRow[] => {
  const { data, errors } = Papa.parse<string[]>(text, { delimiter, newline: '\n' });
  const rows: OpenRow[] = [];
  const lines: number[] = [];
  let line = firstLine;
  for (const cells of data) {
    lines.push(line);
    const isEmpty = cells.every((cell) => cell.trim() === '');
    const isComment = cells[0]!.startsWith('#') && rows.length > 0;
    if (!isEmpty && !isComment) rows.push({ line, cells: cells.map((cell) => cell.trim()) });
    line += 1;
    for (const cell of cells) if (cell.includes('\n')) line += cell.split('\n').length - 1;
  }
  const quote = errors.find((error) => error.type === 'Quotes');
  if (quote !== undefined)
    throw new TableError(
      'a quotation mark is opened and never closed, or closed in the middle of a cell',
      { file, line: lines[quote.row ?? 0] ?? firstLine },
      'Close it, or write a quotation mark inside a quoted cell twice.',
    );
  return rows;
};

/** Cells of a table set in columns go to the heading they stand under, so that empty ones stay empty. */
const cutAtBlanks = (text: string, firstLine: number): OpenRow[] => {
  const rows: OpenRow[] = [];
  let spans: readonly { from: number; to: number }[] = [];
  text.split('\n').forEach((content, i) => {
    const words = [...content.matchAll(/\S+/g)].map((match) => ({
      from: match.index,
      to: match.index + match[0].length,
      word: match[0],
    }));
    if (words.length === 0 || (rows.length > 0 && words[0]!.word.startsWith('#'))) return;
    if (rows.length === 0) spans = words;
    const cells = words.map(({ word }) => word);
    const isUneven = rows.length > 0 && words.length < spans.length;
    rows.push({ line: firstLine + i, cells: isUneven ? underHeadings(words, spans) : cells });
  });
  return rows;
};

type Span = { readonly from: number; readonly to: number };

const underHeadings = (
  words: readonly (Span & { readonly word: string })[],
  spans: readonly Span[],
): string[] => {
  const cells = spans.map(() => '');
  let next = 0;
  words.forEach((word, n) => {
    const far = (at: number) =>
      Math.min(Math.abs(spans[at]!.to - word.to), Math.abs(spans[at]!.from - word.from));
    const last = spans.length - (words.length - n);
    let best = next;
    for (let at = next; at <= last; at++) if (far(at) < far(best)) best = at;
    cells[best] = word.word;
    next = best + 1;
  });
  return cells;
};

const tooWide = (row: OpenRow, header: OpenRow, delimiter: Delimiter, file: string): TableError => {
  const width = header.cells.length;
  const isDecimal = delimiter === ',' && row.cells.some((cell, i) => i > 0 && /^\d+$/.test(cell));
  return new TableError(
    `the row has ${row.cells.length} cells, the header has ${width}`,
    { file, line: row.line, column: width + 1 },
    isDecimal
      ? 'Where commas separate the cells, write decimals with a point, put such numbers in quotation marks, or separate with semicolons.'
      : 'Put cells that hold the separator in quotation marks, or take the extra cells out.',
  );
};
