import type { Refusal } from '@firnbook/campaign';
import { sayHere } from '../texts/say-here.ts';

/** What was wrong and what to do, one line per refusal. */
export function refusalLines(refusals: readonly Refusal[]): readonly string[] {
  return refusals.map((refusal) => `${sayHere(refusal.what)} ${sayHere(refusal.mend)}`);
}
