/** What a cell may hold. Numbers with `decimals` are written with a fixed count of places. */
export type Cell = string | number | null;

/**
 * A table as CSV by RFC 4180 with UTF-8, comma and decimal point. Lines end in LF, which RFC 4180's readers and every
 * spreadsheet take; only CRLF by its letter (section 2, rule 1) when `crlf` is set.
 *
 * Text that a spreadsheet would run as a formula (begins with = + - @, tab or return; OWASP "CSV injection") gets
 * an apostrophe in front, unless it is a plain number. Numbers are written as they are.
 */
export const writeTable = (
  header: readonly string[],
  rows: Iterable<readonly Cell[]>,
  options: { readonly crlf?: boolean } = {},
): string => {
  const end = options.crlf ? '\r\n' : '\n';
  const lines = [header.map(quoted).join(',')];
  for (const row of rows) lines.push(row.map(written).join(','));
  return lines.map((line) => line + end).join('');
};

const plainNumber = /^[+-]?\d+(?:[.,]\d+)?$/;

const written = (cell: Cell): string => {
  if (cell === null) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  const isFormula = /^[=+\-@\t\r]/.test(cell) && !plainNumber.test(cell);
  return quoted(isFormula ? `'${cell}` : cell);
};

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** A number with a fixed count of decimals, never "-0.000". */
export const fixed = (value: number, decimals: number): string => {
  const text = value.toFixed(decimals);
  return /^-0(?:\.0*)?$/.test(text) ? text.slice(1) : text;
};
