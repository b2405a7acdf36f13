import type { Field } from './kind.ts';
import { lengthUnits, unitWords } from './unit.ts';

/** What a text of a field says, once parsed. */
export interface ParsedReading {
  /** Metres, or a whole number; null where the field holds words. */
  readonly value: number | null;
  /** The word of the list, the text, or the id; null where the field holds a number. */
  readonly word: string | null;
  /** Metres that one step of the last typed digit stands for; null where the field holds no length. */
  readonly step: number | null;
}

export type Read =
  | { readonly ok: true; readonly reading: ParsedReading }
  | { readonly ok: false; readonly what: string; readonly mend: string };

/** No sensible reading is longer; keeps every pattern below linear and short. */
const LONGEST = 40;
/** White space as keyboards and spreadsheets make it: no-break, narrow and thin spaces too. */
const SPACE = /[\s\u00a0\u2007\u2009\u202f]+/gu;
const NUMBER = /^([+-]?)(\d*)(?:[.,](\d*))?$/;

/**
 * Parse a reading as typed (J6: done once, on the way into the state; the text itself is kept).
 * Comma or point, a sign (U+2212 too), a unit of the closed table; a field's own unit where none is typed.
 * Separators of thousands are never guessed: two separators, or a space between digits, are refused with words.
 */
export function readReading(text: string, field: Field): Read {
  const trimmed = tidy(text);
  if (trimmed === '') return bad(`No ${field.label} is given.`, 'Type it, or leave the field out.');
  switch (field.quantity) {
    case 'length':
      return readPlainLength(trimmed) ?? readLength(trimmed, field.label, field.unit);
    case 'count':
      return readCount(trimmed, field.label);
    case 'word': {
      const word = field.words.includes(trimmed)
        ? trimmed
        : field.words.find((one) => one.toLowerCase() === trimmed.toLowerCase());
      if (word !== undefined) return good(null, word, null);
      return bad(
        `${cut(trimmed)} is not a word for "${field.label}".`,
        `Use one of: ${listed(field.words)}.`,
      );
    }
    case 'text':
      if (trimmed.length <= field.most) return good(null, trimmed, null);
      return bad(
        `The text of "${field.label}" has ${trimmed.length} characters.`,
        `Keep it to ${field.most}.`,
      );
    case 'thing':
      return good(null, trimmed, null);
  }
}

/** Without any white space but single spaces inside. Nearly every text is so as it comes, and a look is cheap. */
function tidy(text: string): string {
  let before = 0x20;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code > 0x7e || code < 0x20 || (code === 0x20 && before === 0x20)) return tidied(text);
    before = code;
  }
  return before === 0x20 ? tidied(text) : text;
}

const tidied = (text: string): string => text.replace(SPACE, ' ').trim();

/** Most digits that are a whole number without rounding, whatever they are. */
const DIGITS = 15;
const tens = Array.from({ length: DIGITS + 4 }, (_, power) => Number(`1e${power}`));
const plainUnits = new Map([
  [' m', 0],
  [' cm', 2],
  [' mm', 3],
]);

/**
 * A length as screens and people nearly always write it ("0,87 m", "84.5 cm"), read without a pattern: a season
 * has hundreds of thousands. Null for everything else. Digits and power of ten are both exact here, so their
 * quotient is the number nearest to the text, the same to the last bit as `readLength` gives (Clinger 1990, "How to
 * read floating point numbers accurately").
 */
function readPlainLength(text: string): Read | null {
  let whole = 0;
  let digits = 0;
  let point = -1;
  let at = 0;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code >= 0x30 && code <= 0x39) {
      whole = whole * 10 + (code - 0x30);
      digits += 1;
    } else if ((code === 0x2c || code === 0x2e) && point < 0) point = digits;
    else break;
  }
  if (digits === 0 || digits > DIGITS) return null;
  const power = plainUnits.get(text.slice(at));
  if (power === undefined) return null;
  const down = power + (point < 0 ? 0 : digits - point);
  return good(whole / tens[down]!, null, 1 / tens[down]!);
}

function readLength(text: string, label: string, assumed: string): Read {
  if (text.length > LONGEST)
    return bad(`${cut(text)} is too long for "${label}".`, 'Type one number with its unit.');
  const signed = text.replace(/\u2212/g, '-');
  const split = /^([+-]? ?[\d.,' ]*?) ?([a-zA-Z"'\u2032\u2033\u00b5]*)$/.exec(signed);
  if (split === null)
    return bad(
      `${cut(text)} can't be read as "${label}".`,
      `Type a number with its unit, like 87,5 cm or 0.875 m.`,
    );
  const digits = split[1]!.replace(/^([+-]) /, '$1');
  const unit = split[2] === '' ? assumed : split[2]!.toLowerCase();
  const factor = lengthUnits.get(unitWords.get(unit) ?? unit);
  if (factor === undefined)
    return bad(
      `"${split[2]}" in ${cut(text)} is not a unit of length.`,
      `Use one of: ${listed([...lengthUnits.keys()])}.`,
    );
  const number = readNumber(digits, text, label);
  if (typeof number !== 'object') return bad(number, 'Type one number with a comma or a point for decimals.');
  const { sign, whole, decimals } = number;
  // The power of ten goes into the text, so that 87,5 cm and 0.875 m are the same number to the last bit.
  const power = 'power' in factor ? factor.power : 0;
  const times = 'times' in factor ? factor.times : 1;
  const value = Number(`${sign}${whole}.${decimals}e${power}`) * times;
  const step = Number(`1e${power - decimals.length}`) * times;
  return good(value === 0 ? 0 : value, null, step);
}

interface Digits {
  readonly sign: string;
  readonly whole: string;
  readonly decimals: string;
}

/** Sign and digits, or what is wrong. */
function readNumber(digits: string, text: string, label: string): Digits | string {
  if (/\d[ ']+[\d.,]|[.,] /.test(digits)) return `${cut(text)} has a gap between its digits.`;
  if ((digits.match(/[.,]/g) ?? []).length > 1)
    return `${cut(text)} has more than one comma or point, so the number could be read in two ways.`;
  const parts = NUMBER.exec(digits);
  if (parts === null || (parts[2] === '' && (parts[3] ?? '') === ''))
    return `${cut(text)} holds no number for "${label}".`;
  return { sign: parts[1]!, whole: parts[2] === '' ? '0' : parts[2]!, decimals: parts[3] ?? '' };
}

function readCount(text: string, label: string): Read {
  if (/^\d{1,6}$/.test(text) && Number(text) >= 1) return good(Number(text), null, null);
  return bad(`${cut(text)} is not a whole number from 1 on, as "${label}" is.`, 'Type it like 34.');
}

const good = (value: number | null, word: string | null, step: number | null): Read => ({
  ok: true,
  reading: { value, word, step },
});

const bad = (what: string, mend: string): Read => ({ ok: false, what, mend });

const cut = (text: string): string => `"${text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text}"`;

const listed = (words: readonly string[]): string => words.join(', ');
