import { columnWords } from '@firnbook/drawing';
import { createInstance } from 'i18next';
import { axisTexts } from '../axis/texts.ts';
import { en } from './en.ts';

/** English of every room that shows words, in one catalogue: a crew's own language is one more with these keys. */
const english = { ...en, ...under('axis', axisTexts), ...under('drawing', columnWords) };

type Plural = 'one' | 'other';
type Named<K> = K extends `${infer Base}_${Plural}` ? Base : K;

/** A text of the catalogue; plural forms share one key. */
export type TextKey = Named<keyof typeof english>;

const catalogue = createInstance();
void catalogue.init({
  lng: 'en',
  resources: { en: { translation: english } },
  // Keys hold dots for the reader of the catalogue alone.
  keySeparator: false,
  nsSeparator: false,
  initAsync: false,
  // React escapes what it shows.
  interpolation: { escapeValue: false },
});

/** The text in the crew's language, with its values put in. */
export function t(key: TextKey, values: Readonly<Record<string, string | number>> = {}): string {
  return catalogue.t(key, values);
}

function under<Room extends string, Texts extends Readonly<Record<string, string>>>(
  room: Room,
  texts: Texts,
) {
  return Object.fromEntries(Object.entries(texts).map(([key, text]) => [`${room}.${key}`, text])) as {
    readonly [Key in keyof Texts & string as `${Room}.${Key}`]: string;
  };
}
