import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { fileURLToPath } from 'node:url';

/** Where there is no history to take a hash from. */
const FIXED_WORD = 'Ceredin Saddle';

/** The word that all seeds come from, and what it is. */
export const wordOfCommit = (): { readonly word: string; readonly source: string } => {
  const git = spawnSync('git', ['rev-parse', 'HEAD'], {
    cwd: fileURLToPath(new URL('.', import.meta.url)),
    encoding: 'utf8',
  });
  const hash = git.status === 0 ? git.stdout.trim() : '';
  return /^[0-9a-f]{40,64}$/.test(hash)
    ? { word: hash, source: "the commit's hash" }
    : { word: FIXED_WORD, source: 'a fixed word, there is no commit' };
};

/** Seeds 0 .. count - 1 of a word: the first 32 bits of SHA-256 of the word and the number. */
export const seedsOf = (word: string, count: number): number[] =>
  Array.from({ length: count }, (_, i) =>
    createHash('sha256').update(`${word} ${i}`).digest().readUInt32BE(0),
  );
