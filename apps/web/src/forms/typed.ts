/** What a person is typing into a number field: digits, one comma or point, and the unit beside it. */
export interface Typed {
  readonly text: string;
  readonly unit: Unit;
}

export type Unit = 'm' | 'cm' | '';

/** No reading of a core or a cable needs more. */
const longest = 8;

/**
 * The text after one key. A comma or a point is kept as the person pressed it and is taken once; a leading
 * comma gets its zero; anything that no number holds changes nothing.
 */
export function press(text: string, key: string): string {
  if (key === 'back') return text.slice(0, -1);
  if (text.length >= longest) return text;
  if (key === ',' || key === '.') {
    if (/[.,]/.test(text)) return text;
    return text === '' ? `0${key}` : text + key;
  }
  if (!/^\d$/.test(key)) return text;
  return text === '0' ? key : text + key;
}

/** Whatever came in at once (a scanner, a paste) brought to what single keys would have given. */
export function typedFrom(raw: string): string {
  return [...raw.trim()].reduce(press, '');
}

/** The number typed, in the field's unit; null while there is none. */
export function typedNumber(text: string): number | null {
  if (!/\d/.test(text)) return null;
  return Number(text.replace(',', '.'));
}

/** Metres of a typed length or depth; null while there is none. */
export function typedMetres(typed: Typed): number | null {
  const value = typedNumber(typed.text);
  if (value === null) return null;
  return typed.unit === 'cm' ? value / 100 : value;
}

/** The reading as it goes into the record: as typed, with its unit (J6 parses it once, later). */
export function readingOf(typed: Typed): string {
  const text = typed.text.replace(/[.,]$/, '');
  return typed.unit === '' ? text : `${text} ${typed.unit}`;
}

/** The way back: a reading of the record put into the field. */
export function typedOf(reading: string, unit: Unit): Typed {
  const parts = /^\s*(\d+(?:[.,]\d+)?)\s*(m|cm)?\s*$/.exec(reading);
  if (!parts) return { text: '', unit };
  return { text: parts[1] ?? '', unit: (parts[2] as Unit | undefined) ?? unit };
}
