import type { Refusal } from '@firnbook/campaign';

/** What was wrong and what to do, one line per refusal. */
export function refusalLines(refusals: readonly Refusal[]): readonly string[] {
  return refusals.map((refusal) => `${refusal.what} ${refusal.mend}`.trim());
}
