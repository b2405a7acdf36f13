import { english } from './english.ts';
import { type Sentence, sentence, type TextKey } from './sentence.ts';

/** How a kind is called: "run", "runs". */
export const kindText = (kind: string, count = 1): Sentence => called(`kind.${kind}`, kind, { count });

/** How a field of a kind is called, to stand inside a sentence: "depth from". */
export const fieldText = (kind: string, field: string): Sentence => called(`field.${kind}.${field}`, field);

/** How a word of a field's list is called: "ice is lost". A single letter or digit is its own name. */
export const wordText = (kind: string, field: string, word: string): Sentence =>
  called(`word.${kind}.${field}.${word}`, word);

/** What this build has no text for (a newer version's field, a letter of the alphabet) is called what it is. */
function called(key: string, itself: string, values: Sentence['values'] = {}): Sentence {
  const isThere = Object.hasOwn(english, key) || Object.hasOwn(english, `${key}_one`);
  return isThere ? sentence(key as TextKey, values) : asItIs(itself);
}

/** Words that no catalogue turns into others: what somebody typed, a name. */
export const asItIs = (text: string): Sentence => sentence('as.it.is', { text });
