import type { Sentence, Value } from '@firnbook/campaign';
import { inUnit, joined } from '@firnbook/campaign';
import { day, depth, metres, number, shortLength } from './numbers.ts';
import { type TextKey, t } from './t.ts';

/** Something to be said, by its key: the trade's sentences, and the screens' own that have to wait for a reader. */
export interface Said {
  readonly key: TextKey;
  readonly values: Readonly<Record<string, Value>>;
}

/** A sentence in the crew's language, its numbers as the reader of the screen writes them. */
export function sayHere({ key, values }: Said, locale?: string): string {
  const words = (value: Value): string | number => {
    if (typeof value !== 'object') return value;
    if (isList(value)) return joined(value.map(words));
    if ('key' in value) return sayHere(value, locale);
    if ('day' in value) return day(value.day, locale);
    if ('length' in value) return lengthHere(value.length, locale);
    if ('measure' in value) return measureHere(value, locale);
    if (value.sd !== undefined) return depth({ value: value.depth, sd: value.sd }, locale);
    return metres(value.depth, locale);
  };
  return t(key, Object.fromEntries(Object.entries(values).map(([name, value]) => [name, words(value)])));
}

/** What stands as a name of a field or a button of its own begins with a capital letter, where a language has them. */
export function capital(text: string, locale?: string): string {
  return text.charAt(0).toLocaleUpperCase(locale) + text.slice(1);
}

const lengthHere = (value: number, locale?: string): string =>
  Math.abs(value) >= 1 ? metres(value, locale) : shortLength(value, locale);

function measureHere(value: Extract<Value, { readonly measure: number }>, locale?: string): string {
  const { measure, of, unit } = value;
  const figure = inUnit(measure, of, unit);
  const decimals = Math.min(6, (String(Number(figure.toPrecision(6))).split('.')[1] ?? '').length);
  const written = number(figure, decimals, locale);
  if (unit === '1') return written;
  return unit === '°' ? `${written}°` : `${written}\u00a0${unit}`;
}

const isList = (value: Value): value is readonly (string | Sentence)[] => Array.isArray(value);
