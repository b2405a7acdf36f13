import { isTrouble } from '@firnbook/storage/browser';
import type { Said } from '../texts/say-here.ts';

/** What a store's failure means for the one who writes, in the crew's words where there are some. */
export function saidOf(error: unknown): Said {
  if (isTrouble(error)) {
    if (error.trouble === 'disk full') return { key: 'trouble.full', values: {} };
    if (error.trouble === 'unknown fate') return { key: 'trouble.again', values: {} };
    if (error.trouble === 'closed') return { key: 'trouble.closed', values: {} };
    if (error.trouble === 'newer version') return { key: 'trouble.newer', values: {} };
  }
  const what = error instanceof Error ? error.message : String(error);
  return { key: 'trouble.store', values: { what } };
}

/** The store gave no answer, or one that leaves open what was kept: the same entries may be offered again. */
export function mayTryAgain(error: unknown): boolean {
  return isTrouble(error) && error.trouble === 'unknown fate';
}
