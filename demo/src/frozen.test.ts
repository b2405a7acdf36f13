import { readdirSync, readFileSync } from 'node:fs';
import { digestOf, type Sealed } from '@firnbook/journal';
import { describe, expect, it } from 'vitest';
import { bookOf, digestOfLines, lines } from './folded.suite.ts';

/**
 * One journal per release, frozen. A failure here means that this build reads an old record differently: mend the
 * build, never the file. Only a correction of how something was read may change a digest, with its reason in the
 * change log.
 */
interface Frozen {
  readonly version: string;
  /** SHA-256 of the entries' hashes (journal's digestOf). */
  readonly entriesDigest: string;
  /** SHA-256 of what the release showed, as lines (folded.suite.ts). */
  readonly viewDigest: string;
  readonly lines: number;
  readonly entries: readonly Sealed[];
}

const folder = new URL('../journals/', import.meta.url);

describe('frozen journals', () => {
  it.each(readdirSync(folder))('J5: %s opens, checks and folds to what its release showed', (name) => {
    const frozen = JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Frozen;
    expect(name).toBe(`${frozen.version}.json`);
    expect(digestOf(frozen.entries.map((entry) => entry.hash))).toBe(frozen.entriesDigest);
    const book = bookOf(frozen.entries);
    expect(lines(book)).toHaveLength(frozen.lines);
    expect(digestOfLines(book)).toBe(frozen.viewDigest);
  });
});
