import { hashText } from './hash.ts';
import type { Ledger } from './ledger.ts';

/**
 * One hash over a whole journal: SHA-256 of the entries' hashes in ascending order, each followed by a line feed.
 * Two journals hold byte for byte the same entries exactly when their digests are equal.
 */
export function digest(ledger: Ledger): string {
  const hashes = ledger.entries().map((entry) => entry.hash);
  return digestOf(hashes);
}

/** The same over a plain list of hashes, in any order, each counted once. */
export function digestOf(hashes: Iterable<string>): string {
  return hashText(
    [...new Set(hashes)]
      .sort()
      .map((hash) => `${hash}\n`)
      .join(''),
  );
}
