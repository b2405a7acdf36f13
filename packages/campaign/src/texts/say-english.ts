import { createInstance, type i18n } from 'i18next';
import { sayDepth, sayLength, sayMeasure, saySpread } from '../say.ts';
import { english } from './english.ts';
import type { Sentence, Value } from './sentence.ts';

let catalogue: i18n | null = null;

/** Made when it is first asked for: a screen has its own. */
function texts(): i18n {
  if (catalogue !== null) return catalogue;
  catalogue = createInstance();
  void catalogue.init({
    lng: 'en',
    resources: { en: { translation: english } },
    // Keys hold dots for the reader of the catalogue alone.
    keySeparator: false,
    nsSeparator: false,
    initAsync: false,
    interpolation: { escapeValue: false },
  });
  return catalogue;
}

/** A sentence in plain English, numbers with a point: for the command line, and wherever no other language is chosen. */
export function sayEnglish({ key, values }: Sentence): string {
  const filled = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, words(value)]));
  return texts().t(key, filled);
}

function words(value: Value): string | number {
  if (typeof value !== 'object') return value;
  if (isList(value)) return joined(value.map(words));
  if ('key' in value) return sayEnglish(value);
  if ('day' in value) return value.day;
  if ('length' in value) return sayLength(value.length);
  if ('measure' in value) return sayMeasure(value.measure, value.of, value.unit);
  return value.sd === undefined ? sayDepth(value.depth) : `${sayDepth(value.depth)} ± ${saySpread(value.sd)}`;
}

/** A list in one line. A comma divides nothing where it stands in the words themselves, as a decimal sign does. */
export function joined(words: readonly (string | number)[]): string {
  return words.join(words.some((word) => String(word).includes(',')) ? '; ' : ', ');
}

const isList = (value: Value): value is readonly (string | Sentence)[] => Array.isArray(value);
