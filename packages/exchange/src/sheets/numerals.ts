import type { Cell } from './cells.ts';

export type Mark = '.' | ',';

/** How one text writes a number, as far as it can be told by itself. */
export interface Numeral {
  /**
   * whole: no mark at all. sure: its mark can only be decimal. either: "1,234", which could be both.
   * grouped: two marks or blanks in threes, "1.234,5" or "1 234".
   */
  readonly form: 'whole' | 'sure' | 'either' | 'grouped';
  /** The decimal mark (`sure`, `grouped`), or the one that could be (`either`); null where there is none. */
  readonly mark: Mark | null;
  /** "<" or ">" in front: a limit, not a value. */
  readonly limit: '<' | '>' | null;
}

const sign = '[+-]?';
const simple = new RegExp(`^${sign}(\\d*)([.,])(\\d*)(?:[eE][+-]?\\d{1,3})?$`);
const whole = new RegExp(`^${sign}\\d+(?:[eE][+-]?\\d{1,3})?$`);
const grouped = new RegExp(`^${sign}\\d{1,3}(?:([.,' ])\\d{3})(?:\\1\\d{3})*(?:([.,])(\\d+))?$`);

/** One kind of minus, one kind of blank. */
export const tidyNumeral = (text: string): string =>
  text
    .replace(/[\u2212\u2012\u2013](?=[\d.,])/g, '-')
    .replace(/[\u00a0\u2007\u2009\u202f]/g, ' ')
    .replace(/\u2019/g, "'")
    .trim();

/** @returns null for what is no number */
export const readNumeral = (text: string): Numeral | null => {
  let rest = tidyNumeral(text);
  let limit: Numeral['limit'] = null;
  const bounded = /^([<>]|\u2264|\u2265)=?\s*(?=[\d.,])/.exec(rest);
  if (bounded !== null) {
    limit = bounded[1] === '<' || bounded[1] === '\u2264' ? '<' : '>';
    rest = rest.slice(bounded[0].length);
  }
  if (whole.test(rest)) return { form: 'whole', mark: null, limit };
  const one = simple.exec(rest);
  if (one !== null) {
    const [, before = '', mark = '.', after = ''] = one;
    if (before === '' && after === '') return null;
    const isEither = /^[1-9]\d{0,2}$/.test(before) && after.length === 3 && !/e/i.test(rest);
    return { form: isEither ? 'either' : 'sure', mark: mark as Mark, limit };
  }
  const many = grouped.exec(rest);
  if (many === null || many[1] === many[2]) return null;
  const decimal = many[2] as Mark | undefined;
  return { form: 'grouped', mark: decimal ?? (many[1] === '.' ? ',' : '.'), limit };
};

/** What all cells of a column say together about its decimal mark. */
export interface MarkEvidence {
  /** Marks that are decimal beyond doubt somewhere in the column. */
  readonly decimal: readonly Mark[];
  /** Cells like "1,234" that could be read in two ways, by the mark in them. */
  readonly either: readonly Mark[];
  /** Cells with separators of thousands. */
  readonly grouped: number;
  /** One of the unclear cells, for a question. */
  readonly example: string | null;
}

export const markEvidence = (cells: Iterable<Cell>): MarkEvidence => {
  const decimal = new Set<Mark>();
  const either = new Set<Mark>();
  let groups = 0;
  let example: string | null = null;
  for (const cell of cells) {
    if (typeof cell !== 'string' || cell === '') continue;
    const numeral = readNumeral(cell);
    if (numeral === null || numeral.form === 'whole') continue;
    if (numeral.form === 'sure') decimal.add(numeral.mark!);
    else example ??= cell;
    if (numeral.form === 'either') either.add(numeral.mark!);
    if (numeral.form === 'grouped') groups += 1;
  }
  return { decimal: [...decimal], either: [...either], grouped: groups, example };
};

/**
 * The decimal mark of a column.
 *
 * A mark that is decimal in any cell of the column, or in any other column of the table while the other mark never
 * is, settles it. "1,234" in a column and a table without such a cell is not guessed at, nor are separators of
 * thousands: a person is asked.
 *
 * @param own of the column
 * @param others of the table's other columns
 * @returns the mark; 'either' where both are used and each cell tells for itself; 'ask'; null where there are none
 */
export const decideMark = (
  own: MarkEvidence,
  others: readonly MarkEvidence[],
): Mark | 'either' | 'ask' | null => {
  if (own.grouped > 0) return 'ask';
  if (own.decimal.length === 2) return own.either.length === 0 ? 'either' : 'ask';
  if (own.decimal.length === 1) {
    const [mark] = own.decimal;
    return own.either.every((one) => one === mark) ? mark! : 'ask';
  }
  if (own.either.length === 0) return null;
  const around = new Set(others.flatMap(({ decimal }) => decimal));
  const [mark] = own.either;
  return own.either.length === 1 && around.size === 1 && around.has(mark!) ? mark! : 'ask';
};

/**
 * A number as campaign readings want it: at most one mark, no separators. Digits stay as typed.
 *
 * @param decimal the column's mark; the other one then separates thousands
 * @returns null for text that is no number
 */
export const plainNumeral = (cell: Cell, decimal: Mark | 'either' | null): string | null => {
  if (typeof cell !== 'string') return cell.as === 'number' ? plainDouble(cell.text) : null;
  const numeral = readNumeral(cell);
  if (numeral === null || numeral.limit !== null) return null;
  const text = tidyNumeral(cell);
  if (numeral.form === 'whole' || numeral.form === 'sure') {
    // a mark that the column has otherwise: "12.5" where the comma is decimal can only be a decimal point
    return withoutExponent(text);
  }
  if (decimal === null || decimal === 'either') return numeral.form === 'either' ? text : null;
  if (numeral.form === 'either') return numeral.mark === decimal ? text : text.replace(/[.,]/g, '');
  return numeral.mark === decimal || !/[.,]/.test(text)
    ? text.replace(decimal === ',' ? /[.' ]/g : /[,' ]/g, '')
    : null;
};

/** A stored double without exponent, as people write it. */
const plainDouble = (text: string): string => (/e/i.test(text) ? withoutExponent(text) : text);

/** Moves the mark instead: readings have no exponents. */
const withoutExponent = (text: string): string => {
  const match = /^([+-]?)(\d*)(?:([.,])(\d*))?[eE]([+-]?\d+)$/.exec(text);
  if (match === null) return text;
  const [, minus = '', before = '', mark = '.', after = '', power = '0'] = match;
  const digits = before + after;
  const at = before.length + Number(power);
  if (at <= 0) return `${minus}0${mark}${'0'.repeat(-at)}${digits}`;
  if (at >= digits.length) return minus + digits + '0'.repeat(at - digits.length);
  return `${minus}${digits.slice(0, at)}${mark}${digits.slice(at)}`;
};

/** Words that stand for an empty cell, as #N/A does in a workbook ("not available"). */
const nothing = new Set([
  '',
  '-',
  '--',
  '\u2013',
  '\u2014',
  'na',
  'n/a',
  'n.a.',
  'nan',
  'null',
  'none',
  '#n/a',
]);

export const saysNothing = (cell: Cell): boolean =>
  typeof cell === 'string' ? nothing.has(cell.toLowerCase()) : cell.as === 'error' && cell.text === '#N/A';

/** Whether a cell holds a number, also one with a limit in front or a unit behind. */
export const isNumberLike = (cell: Cell): boolean => {
  if (typeof cell !== 'string') return cell.as === 'number';
  if (!/\d/.test(cell)) return false;
  if (readNumeral(cell) !== null) return true;
  const behind = /^(.*\d)\s*[\p{L}\u00b5\u00b0%\u2030]{1,4}$/u.exec(cell);
  return behind !== null && readNumeral(behind[1]!) !== null;
};
