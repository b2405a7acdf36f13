import { fieldText, kindText, nameSentence, type ThingView, wordText } from '@firnbook/campaign';
import { capital, sayHere } from './say-here.ts';
import { type TextKey, t } from './t.ts';

/** How kinds, their fields and words are called where they stand alone, as a heading or a button. */

/** "Cable check". */
export const kindName = (kind: string, count = 1): string => capital(sayHere(kindText(kind, count)));

/** "Depth from". */
export const fieldName = (kind: string, field: string): string => capital(sayHere(fieldText(kind, field)));

/** The same inside a sentence: "depth from". */
export const fieldWords = (kind: string, field: string): string => sayHere(fieldText(kind, field));

/** "Ice is lost". */
export const wordName = (kind: string, field: string, word: string): string =>
  capital(sayHere(wordText(kind, field, word)));

/** What a thing is called, without its kind: "B-R034", "Zero 1"; a crew's catalogue has its own word for the latter. */
export const nameHere = (thing: Pick<ThingView, 'kind' | 'name'>): string => sayHere(nameSentence(thing));

const hints: Readonly<Record<string, TextKey>> = {
  'piece topBreak fits': 'break.fits.hint',
  'piece topBreak ground': 'break.ground.hint',
  'piece topBreak loss': 'break.loss.hint',
  'piece topBreak unsure': 'break.unsure.hint',
  'piece topBreak sawn': 'break.sawn.hint',
  'piece topBreak handling': 'break.handling.hint',
  'run recovered nothing': 'run.recovered.nothing.hint',
};

/** What a word means, in small letters under it, where it is not plain. */
export function wordHint(kind: string, field: string, word: string): string | undefined {
  const key = hints[`${kind} ${field} ${word}`];
  return key === undefined ? undefined : t(key);
}
