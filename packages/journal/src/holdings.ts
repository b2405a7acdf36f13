import { coverageOf, type Have } from './coverage.ts';
import type { Entry } from './entry.ts';
import type { Head, Ledger } from './ledger.ts';

/**
 * Which entries of a journal rest in copies that told their heads (a backup that was read back): for ticks, not for
 * choosing what to send.
 */
export const restingIn = (ledger: Ledger, copies: readonly Have[]): ((entry: Entry) => boolean) => {
  const all: Record<string, readonly Head[]> = { __proto__: null } as never;
  for (const copy of copies)
    for (const [device, heads] of Object.entries(copy)) all[device] = [...(all[device] ?? []), ...heads];
  const coverage = coverageOf(ledger, all);
  return (entry) => coverage.holds(entry);
};
