import type { Safety } from './book.ts';
import { keep, keptNames, recall } from './kept.ts';

type Sent = Pick<Safety, 'total' | 'onCamp'>;

const mark = 'unsent.';
const unsentOf = ({ total, onCamp }: Sent): number => total - onCamp;

/** Remembers how much of a campaign the camp computer has not confirmed, for the time when its book is not open. */
export function noteUnsent(campaign: string, safety: Sent): void {
  // A book that is still being read counts nothing yet, and nothing is not zero.
  if (safety.total === 0) return;
  const count = String(unsentOf(safety));
  if (recall(mark + campaign) !== count) keep(mark + campaign, count);
}

/** Entries of every campaign on this device that the camp computer has not confirmed: as open books say, else as remembered. */
export function unsentAnywhere(open: ReadonlyMap<string, Sent>): number {
  let count = 0;
  for (const safety of open.values()) count += unsentOf(safety);
  for (const name of keptNames(mark)) {
    const known = open.get(name.slice(mark.length));
    if (known === undefined || known.total === 0) count += Number(recall(name)) || 0;
  }
  return count;
}
