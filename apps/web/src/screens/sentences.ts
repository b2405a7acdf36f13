import type { DepthView, HoleView, RunView } from '@firnbook/campaign';
import { type Answer, runSentences, say } from '@firnbook/campaign';
import { depth, metres, shortLength } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';

/** The trade's sentences in the catalogue's words, with the reader's numbers. */
const words: Answer = {
  'run.drilled': ({ name, advance }) => t('answer.run.drilled', { name, advance: metres(advance) }),
  'run.logged': ({ name }) => t('answer.run.logged', { name }),
  'run.nothing': () => t('answer.run.nothing'),
  'run.core': ({ core, pieces }) => t('answer.run.core', { core: metres(core), count: pieces }),
  'run.closes': () => t('answer.run.closes'),
  'run.left': ({ length }) => t('answer.run.left', { length: shortLength(length) }),
  'run.more': ({ length }) => t('answer.run.more', { length: shortLength(length) }),
  'run.bottom': ({ depth: value, sd }) => t('answer.run.bottom', { depth: depth({ value, sd }) }),
  'run.fits': ({ before }) => t('answer.run.fits', { before }),
  'run.loss': ({ before }) => t('answer.run.loss', { before }),
  'run.unsure': ({ before }) => t('answer.run.unsure', { before }),
  'run.look': ({ count }) => t('answer.run.look', { count }),
};

/** What a run comes to, in words that the crew can read to each other. */
export function runWords(hole: HoleView, depths: DepthView | undefined, run: RunView): string {
  return runSentences(hole, depths ?? null, run)
    .map((sentence) => say(sentence, words))
    .join(' ');
}
