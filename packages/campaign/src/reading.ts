import type { Field, Kind, LengthsField, MeasureField } from './kind.ts';
import { eachLength } from './lengths.ts';
import { type Fault, LONGEST, measure } from './measure.ts';
import { type Position, readPosition } from './position.ts';
import { fieldText } from './texts/called.ts';
import { type Sentence, sentence } from './texts/sentence.ts';
import { readTime } from './time.ts';
import { type Dimension, units } from './unit.ts';

/** What a text of a field says, once parsed. */
export interface ParsedReading {
  /** In the base unit of the field's dimension, or a whole number; null where the field holds no number. */
  readonly value: number | null;
  /** The word of the list, the text, the moment, the id; null where the field holds a number. */
  readonly word: string | null;
  /** What one step of the last typed digit stands for, in the base unit; null where the field is no measure. */
  readonly step: number | null;
}

export type Read =
  | { readonly ok: true; readonly reading: ParsedReading }
  | { readonly ok: false; readonly what: Sentence; readonly mend: Sentence };

/** White space as keyboards and spreadsheets make it: no-break, narrow and thin spaces too. */
const SPACE = /[\s\u00a0\u2007\u2009\u202f]+/gu;

/**
 * Parse a reading as typed (J6: done once, on the way into the state; the text itself is kept).
 * Comma or point, a sign (U+2212 too), a unit of the closed tables; a field's own unit where none is typed.
 * Separators of thousands are never guessed: two separators, or a space between digits, are refused with words.
 *
 * @param field one of the fields of `kind`
 */
export function readReading(text: string, field: Field, kind: Kind): Read {
  const trimmed = tidy(text);
  if (trimmed === '')
    return bad(sentence('refuse.blank', { field: fieldText(kind.kind, field.name) }), sentence('mend.blank'));
  switch (field.quantity) {
    case 'length':
      return readPlainLength(trimmed) ?? readMeasure(trimmed, field, kind);
    case 'count':
      return readCount(trimmed, field, kind);
    case 'word': {
      const word = field.words.includes(trimmed)
        ? trimmed
        : field.words.find((one) => one.toLowerCase() === trimmed.toLowerCase());
      if (word !== undefined) return good(null, word, null);
      return bad(about('refuse.word', trimmed, field, kind), sentence('mend.one.of', { words: field.words }));
    }
    case 'text':
      if (trimmed.length <= field.most) return good(null, trimmed, null);
      return bad(
        sentence('refuse.long.text', { field: fieldText(kind.kind, field.name), count: trimmed.length }),
        sentence('mend.keep.to', { most: field.most }),
      );
    case 'thing':
      return good(null, trimmed, null);
    case 'time': {
      const time = readTime(trimmed);
      if (time !== null) return good(null, time, null);
      return bad(about('refuse.time', trimmed, field, kind), sentence('mend.time'));
    }
    case 'attachment':
      if (/^[\da-f]{64}$/i.test(trimmed)) return good(null, trimmed.toLowerCase(), null);
      return bad(sentence('refuse.attachment', { text: cut(trimmed) }), sentence('mend.attachment'));
    case 'position':
      if (readPosition(trimmed) !== null) return good(null, trimmed, null);
      return bad(sentence('refuse.position', { text: cut(trimmed) }), sentence('mend.position'));
    case 'lengths':
      return readLengths(trimmed, field, kind);
    default:
      return readMeasure(trimmed, field, kind);
  }
}

/** Each length of a reading of several, in metres, as typed from left to right; none where it cannot be read. */
export function lengthsIn(text: string, field: LengthsField): readonly number[] {
  const read = eachLength(tidy(text), field);
  return 'values' in read ? read.values : [];
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
 * quotient is the number nearest to the text, the same to the last bit as `readMeasure` gives (Clinger 1990, "How to
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

/** Latitude and longitude that a position says; null where it cannot be read. */
export const positionIn = (text: string): Position | null => readPosition(tidy(text));

function readMeasure(text: string, field: MeasureField, kind: Kind): Read {
  const measured = measure(text, field.quantity, field.unit);
  if ('value' in measured) return good(measured.value, null, measured.step);
  return refusedNumber(measured, text, field, field.quantity, kind);
}

function refusedNumber(
  fault: Fault,
  text: string,
  field: MeasureField | LengthsField,
  dimension: Dimension,
  kind: Kind,
): Read {
  switch (fault.fault) {
    case 'refuse.unit':
      return bad(
        sentence('refuse.unit', {
          unit: fault.unit,
          text: cut(text),
          dimension: sentence(`dimension.${dimension}`),
        }),
        sentence('mend.one.of', { words: Object.keys(units[dimension]) }),
      );
    case 'refuse.too.long':
      return bad(about(fault.fault, text, field, kind), sentence('mend.one.number'));
    case 'refuse.unreadable':
      return bad(about(fault.fault, text, field, kind), sentence('mend.number', { unit: field.unit }));
    default:
      return bad(about(fault.fault, text, field, kind), sentence('mend.decimals'));
  }
}

function readLengths(text: string, field: LengthsField, kind: Kind): Read {
  const read = eachLength(text, field);
  if ('values' in read)
    return good(read.values.reduce((sum, one) => sum + one, 0) / read.values.length, null, null);
  const refused = refusedNumber(read, read.part, field, 'length', kind);
  return refused.ok || read.fault === 'refuse.unit'
    ? refused
    : { ...refused, mend: sentence('mend.lengths') };
}

function readCount(text: string, field: Field, kind: Kind): Read {
  if (/^\d{1,6}$/.test(text) && Number(text) >= 1) return good(Number(text), null, null);
  return bad(about('refuse.count', text, field, kind), sentence('mend.count'));
}

const good = (value: number | null, word: string | null, step: number | null): Read => ({
  ok: true,
  reading: { value, word, step },
});

const bad = (what: Sentence, mend: Sentence): Read => ({ ok: false, what, mend });

const about = (key: Sentence['key'], text: string, field: Field, kind: Kind): Sentence =>
  sentence(key, { text: cut(text), field: fieldText(kind.kind, field.name) });

const cut = (text: string): string => (text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text);
