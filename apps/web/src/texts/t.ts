import { english as trade } from '@firnbook/campaign';
import { columnWords } from '@firnbook/drawing';
import { createInstance } from 'i18next';
import { axisTexts } from '../axis/texts.ts';
import { en } from './en.ts';
import type { calculatorTexts } from './en-calculator.ts';
import type { carryTexts } from './en-carry.ts';
import { formTexts } from './en-forms.ts';
import { importTexts } from './en-import.ts';
import type { pairTexts } from './en-pair.ts';
import type { peopleTexts } from './en-people.ts';
import type { pinTexts } from './en-pin.ts';
import type { screenTexts } from './en-screens.ts';
import type { stickTexts } from './en-sticks.ts';
import { versionTexts } from './en-versions.ts';

/**
 * English of every room that shows words, in one catalogue: a crew's own language is one more with these keys.
 */
const english = {
  ...trade,
  ...en,
  ...formTexts,
  ...importTexts,
  ...versionTexts,
  ...under('axis', axisTexts),
  ...under('drawing', columnWords),
};

type Plural = 'one' | 'other';
type Named<K> = K extends `${infer Base}_${Plural}` ? Base : K;

/** A text of the catalogue; plural forms share one key. */
export type TextKey = Named<
  | keyof typeof english
  | keyof typeof screenTexts
  | keyof typeof calculatorTexts
  | keyof typeof carryTexts
  | keyof typeof pairTexts
  | keyof typeof stickTexts
  | keyof typeof peopleTexts
  | keyof typeof pinTexts
>;

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

/** Texts of a part that is fetched after the first look; it brings them before it shows anything. */
export function addTexts(texts: Readonly<Record<string, string>>): void {
  plain.clear();
  catalogue.addResources('en', 'translation', texts);
}

/** Texts without values as they were last found: every screen asks for tens of them with each drawing. */
const plain = new Map<TextKey, string>();

/** The text in the crew's language, with its values put in. */
export function t(key: TextKey, values?: Readonly<Record<string, string | number>>): string {
  if (values !== undefined) return catalogue.t(key, values);
  const known = plain.get(key);
  if (known !== undefined) return known;
  const text = catalogue.t(key);
  plain.set(key, text);
  return text;
}

function under<Room extends string, Texts extends Readonly<Record<string, string>>>(
  room: Room,
  texts: Texts,
) {
  return Object.fromEntries(Object.entries(texts).map(([key, text]) => [`${room}.${key}`, text])) as {
    readonly [Key in keyof Texts & string as `${Room}.${Key}`]: string;
  };
}
