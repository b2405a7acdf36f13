import type { DepthView, HoleView, RunView } from '@firnbook/campaign';
import { runSentences } from '@firnbook/campaign';
import { sayHere } from '../texts/say-here.ts';

/** What a run comes to, in words that the crew can read to each other. */
export function runWords(hole: HoleView, depths: DepthView | undefined, run: RunView): string {
  return runSentences(hole, depths ?? null, run)
    .map((sentence) => sayHere(sentence))
    .join(' ');
}
