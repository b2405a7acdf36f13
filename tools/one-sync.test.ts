import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sourceFiles } from './source-files.mjs';

/** Programs that carry entries: all through the journal room's replica, none by a way of its own. */
const carriers = {
  'camp computer': 'apps/server/src/',
  'browser tab': 'apps/web/src/',
  'command line': 'apps/cli/src/',
  simulator: 'packages/journal/src/simulation/',
};

const read = (file: string): string => readFileSync(new URL(`../${file}`, import.meta.url), 'utf8');
const isTest = (file: string): boolean => /\.(test|suite)\.tsx?$/.test(file);
const product = sourceFiles().filter((file: string) => !isTest(file));

describe('One sync core', () => {
  for (const [who, folder] of Object.entries(carriers)) {
    it(`the ${who} opens the journal room's replica`, () => {
      const opens = product.filter(
        (file: string) =>
          file.startsWith(folder) &&
          /import\s[^;]*\bopenReplica\b[^;]*from '(@firnbook\/journal|\.\.\/replica\.ts)'/s.test(read(file)),
      );
      expect(opens).not.toEqual([]);
    });
  }

  it('nobody outside the journal room chooses, checks or seals entries for itself', () => {
    const own = product.filter(
      (file: string) =>
        !file.startsWith('packages/journal/') &&
        /import\s[^;]*\b(offer|accept|admit|coverageOf|seal)\b[^;]*from '@firnbook\/journal'/s.test(
          read(file),
        ),
    );
    // The demo plays devices that wrote months ago: it seals their chains once, at its own clock.
    // The preview of a table tries its rows on a book of its own, whose entries nobody keeps or passes on.
    const tried = 'packages/exchange/src/sheets/scratch.ts';
    // A file is an offer that nobody answers: it is chosen by the journal room's offer, and previewed by its accept.
    const byFile = ['packages/exchange/src/carry/bring.ts', 'packages/exchange/src/carry/write.ts'];
    expect(
      own.filter(
        (file: string) =>
          !byFile.includes(file) && !file.startsWith('demo/') && !file.startsWith('bench/') && file !== tried,
      ),
    ).toEqual([]);
  });
});
