import type { Sealed } from '@firnbook/journal';
import { demoJournal } from './journal.ts';

export { DEMO_CAMPAIGN, type DemoOptions, demoJournal } from './journal.ts';

/** Of the demo that a new camp computer is filled with. */
export const DEMO_SEED = 4870;

/** What an empty data folder is filled with: the invented campaign, the same bytes everywhere. */
export function demoEntries(): readonly Sealed[] {
  return demoJournal({ seed: DEMO_SEED });
}
