import { sayDepth, sayLength } from '../say.ts';
import type { Sentence } from './sentences.ts';

/** A catalogue: for each sentence, its words. */
export type Answer = {
  readonly [Key in Sentence['key']]: (values: Extract<Sentence, { readonly key: Key }>['values']) => string;
};

/** The sentences in plain English, for the command line and wherever no other language is chosen. */
export const english: Answer = {
  'run.drilled': ({ name, advance }) => `${name}: ${advance.toFixed(2)} m drilled.`,
  'run.logged': ({ name }) => `${name} is logged.`,
  'run.nothing': () => 'Nothing came up: expect its ice with the next run.',
  'run.core': ({ core, pieces }) =>
    `${core.toFixed(2)} m of core in ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}.`,
  'run.closes': () => 'That closes.',
  'run.left': ({ length }) => `${whole(length)} left in the hole, expect it next.`,
  'run.more': ({ length }) => `${whole(length)} more than was drilled: it may have been left before.`,
  'run.bottom': ({ depth, sd }) =>
    `Solved bottom ${sayDepth(depth)} ± ${sd < 0.01 ? sayLength(sd) : whole(sd)}.`,
  'run.fits': ({ before }) => `Fits ${before}.`,
  'run.loss': ({ before }) => `Ice is lost between it and ${before}.`,
  'run.unsure': ({ before }) => `Unsure whether it fits ${before}.`,
  'run.look': ({ count }) =>
    count === 1
      ? 'One reading does not fit the others: look at it again.'
      : `${count} readings do not fit the others: look at them again.`,
};

/** One sentence in the words of a catalogue. */
export function say(sentence: Sentence, catalogue: Answer = english): string {
  const words = catalogue[sentence.key] as (values: Sentence['values']) => string;
  return words(sentence.values);
}

const whole = (metres: number): string => (metres >= 1 ? sayDepth(metres) : `${Math.round(metres * 100)} cm`);
