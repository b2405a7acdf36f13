/** What a person is typing into a number field: a sign, digits, one comma or point, and the unit beside it. */
export interface Typed {
  readonly text: string;
  readonly unit: string;
}

/** No reading of a core or a cable needs more; degrees of a place do. */
const longest = 10;

/** Whether the number may lie below zero. */
interface Signed {
  readonly signed?: boolean | undefined;
}

/**
 * The text after one key. A comma or a point is kept as the person pressed it and is taken once; a leading
 * comma gets its zero; "-" turns the sign where the number may lie below zero; anything that no number holds changes
 * nothing.
 */
export function press(text: string, key: string, { signed }: Signed = {}): string {
  if (key === 'back') return text.slice(0, -1);
  if (key === '-' || key === '\u2212') {
    if (!signed) return text;
    return text.startsWith('-') ? text.slice(1) : `-${text}`;
  }
  const sign = text.startsWith('-') ? '-' : '';
  const digits = text.slice(sign.length);
  if (digits.length >= longest) return text;
  if (key === ',' || key === '.') {
    if (/[.,]/.test(digits)) return text;
    return digits === '' ? `${sign}0${key}` : text + key;
  }
  if (!/^\d$/.test(key)) return text;
  return digits === '0' ? sign + key : text + key;
}

/** Whatever came in at once (a scanner, a paste) brought to what single keys would have given. */
export function typedFrom(raw: string, signed: Signed = {}): string {
  return [...raw.trim()].reduce((text, key) => press(text, key, signed), '');
}

/** The number typed, in the field's unit; null while there is none. */
export function typedNumber(text: string): number | null {
  if (!/\d/.test(text)) return null;
  return Number(text.replace(',', '.'));
}

const metresIn: Readonly<Record<string, number>> = { m: 1, cm: 100, mm: 1000 };

/** Metres of a typed length or depth; null while there is none. */
export function typedMetres(typed: Typed): number | null {
  const value = typedNumber(typed.text);
  return value === null ? null : value / (metresIn[typed.unit] ?? 1);
}

/** The reading as it goes into the record: as typed, with its unit (J6 parses it once, later). */
export function readingOf(typed: Typed): string {
  const text = typed.text.replace(/[.,]$/, '');
  return typed.unit === '' ? text : `${text} ${typed.unit}`;
}

/** The way back: a reading of the record put into the field. */
export function typedOf(reading: string, unit: string): Typed {
  const parts = /^\s*([-\u2212]?)\s*(\d+(?:[.,]\d+)?)\s*([^\d\s;,.][^\d\s;,.]*)?\s*$/.exec(reading);
  if (!parts) return { text: '', unit };
  return { text: `${parts[1] === '' ? '' : '-'}${parts[2]}`, unit: parts[3] ?? unit };
}

/**
 * The unit that letters typed on a keyboard stand for: the one that is spelled so, else the first that begins so.
 *
 * @param letters typed one after the other since the last digit
 */
export function unitTyped(letters: string, units: readonly string[]): string | undefined {
  const last = letters.slice(-1);
  return (
    units.find((unit) => unit === letters) ??
    units.find((unit) => unit.startsWith(letters)) ??
    units.find((unit) => unit === last)
  );
}
