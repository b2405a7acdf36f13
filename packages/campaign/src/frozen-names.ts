import { kindOf } from './kinds.ts';
import { asItIs } from './texts/called.ts';
import { type Sentence, sentence } from './texts/sentence.ts';
import type { ThingView } from './view.ts';

/**
 * Names of zeros and soundings in the view. They hold English and stay as they are, as journals of every release are
 * held to their views; a screen says them by `nameSentence`.
 */
export const zeroName = (number: number): string => `Zero ${number}`;
export const soundingName = (run: string): string => `${after}${run}`;
export const unknownRun = 'an unknown run';

const after = 'Sounding after ';
const zero = /^Zero (\d+)$/;

/** How a thing is called, for a catalogue: the name of whatever bears one of its own, or of what it is called by. */
export function nameSentence({ kind, name }: Pick<ThingView, 'kind' | 'name'>): Sentence {
  if (!mayHold(kind)) return asItIs(name);
  const number = zero.exec(name)?.[1];
  if (number !== undefined) return sentence('name.zero', { number });
  if (!name.startsWith(after)) return asItIs(name);
  const run = name.slice(after.length);
  return run === unknownRun ? sentence('name.sounding.unknown') : sentence('name.sounding', { run });
}

/** Zeros, soundings, and what is called by another thing, which may be one of them. */
function mayHold(kind: string): boolean {
  if (kind === 'zero' || kind === 'sounding') return true;
  const table = kindOf(kind);
  return table?.fields.some((one) => one.name === table.calledBy && one.quantity === 'thing') ?? false;
}
