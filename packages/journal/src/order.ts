import type { Entry } from './entry.ts';

/**
 * The one total order of a journal, the same wherever it is computed: stamp, then device, then sequence, then
 * hash (J1). All are compared as UTF-16 text or as numbers, never by locale.
 */
export function compareEntries(a: Entry, b: Entry): number {
  const left = a.header;
  const right = b.header;
  return (
    compareText(left.stamp, right.stamp) ||
    compareText(left.device, right.device) ||
    left.sequence - right.sequence ||
    compareText(a.hash, b.hash)
  );
}

/** The list in total order: itself where it is so already, as what comes from a ledger is; else a sorted copy. */
export function inOrder(entries: readonly Entry[]): readonly Entry[] {
  for (let i = 1; i < entries.length; i++)
    if (compareEntries(entries[i - 1]!, entries[i]!) > 0) return [...entries].sort(compareEntries);
  return entries;
}

/** Where in a list in total order an entry belongs: the number of entries before it. */
export function placeOf(sorted: readonly Entry[], entry: Entry): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (compareEntries(sorted[middle]!, entry) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

function compareText(a: string, b: string): number {
  return a === b ? 0 : a < b ? -1 : 1;
}
