import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startServer } from '@firnbook/server';
import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

/** An invented hole with four runs of one piece each. */
async function bookIn(folder: string) {
  const book = ['--data', folder];
  const where = ['--campaign', 'Ceredin Saddle', '--hole', 'B', ...book];
  const speak = (...words: readonly string[]) => firnbook(...words, ...where, '--initials', 'KM');
  await beginCampaign(folder);
  for (const run of [1, 2, 3, 4]) {
    const [from, to] = [0.9 * (run - 1), 0.9 * run].map((depth) => `${depth.toFixed(2)} m`);
    await speak('log', 'run', `number=${run}`, `from=${from}`, `to=${to}`, 'recovered=core');
    await speak('log', 'piece', `run=${run}`, 'number=1', 'length=89 cm', 'topBreak=fits');
  }
  return {
    where,
    speak,
    compare: (...words: readonly string[]) => firnbook('compare-depths', ...words, ...where),
  };
}

/** The only campaign's attachments, each under the name of its SHA-256. */
const attachmentsIn = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile() && /^[0-9a-f]{64}$/.test(one.name))
    .map((one) => join(one.parentPath, one.name));

describe('firnbook sign-off', () => {
  it('keeps depths, readings and entries under a name, as a file of its own SHA-256 beside the book', () =>
    inFolder(async (folder) => {
      const { speak, where } = await bookIn(folder);
      const done = await speak('sign-off', 'v1', '--note', 'for the cutting plan');
      expect(done.code).toBe(0);
      expect(done.out).toMatch(
        /^Signed off: .+ v1, 4 runs, 4 pieces, by .*depth.* SHA-256 [0-9a-f]{64}, id /,
      );
      const [file] = attachmentsIn(folder);
      const bytes = readFileSync(file!);
      const sha256 = createHash('sha256').update(bytes).digest('hex');
      expect(done.out).toContain(sha256);
      const version = JSON.parse(bytes.toString('utf8'));
      expect(version).toMatchObject({ name: 'v1', pieces: { length: 4 } });
      expect(version.entries.length).toBeGreaterThanOrEqual(8);
      const shown = await firnbook('show', 'v1', ...where);
      expect(shown.out).toContain(sha256);
      expect(shown.out).toContain('for the cutting plan');
    }));

  it('stays as it was; what moved since is told with the reading that moved it, by the name of the version', () =>
    inFolder(async (folder) => {
      const { speak, compare } = await bookIn(folder);
      await speak('sign-off', 'v1');
      expect((await compare('v1')).out).toContain('Nothing was changed.\n0 of 4 pieces moved');
      await speak('correct', 'B-P002.1', 'length=87 cm', '--reason', 'measured again');
      const since = await compare('v1');
      expect(since.err).toMatch(/Comparing .* v1 with .* as it is now/);
      expect(since.out).toMatch(
        /B-P002\.1 moved \d+ mm up because the length of B-P002\.1 was corrected from 89 cm to 87 cm\./,
      );
      await speak('sign-off', 'v2');
      const between = await compare('V1', 'v2');
      expect(between.code).toBe(0);
      expect(between.out).toContain('1 change: the length of B-P002.1 was corrected from 89 cm to 87 cm.');
    }));

  it('works through the running server: the file and its entry are there, and come back by name', () =>
    inFolder(async (folder) => {
      const { speak, compare, where } = await bookIn(folder);
      const server = await startServer({
        dataFolder: folder,
        webFolder: join(folder, 'web'),
        port: 0,
        log: () => undefined,
      });
      try {
        expect((await speak('sign-off', 'v1')).code).toBe(0);
        expect(attachmentsIn(folder)).toHaveLength(1);
        expect((await compare('v1')).out).toContain('Nothing was changed.');
        writeFileSync(attachmentsIn(folder)[0]!, 'rust');
        const damaged = await compare('v1');
        expect(damaged.code).toBe(2);
        expect(damaged.err).toMatch(/not on the camp computer, or not whole|damaged/);
      } finally {
        await server.close();
      }
      expect((await firnbook('show', 'v1', ...where)).code).toBe(0);
    }));

  it('refuses a name twice, and names the versions there are where one is not', () =>
    inFolder(async (folder) => {
      const { speak, compare } = await bookIn(folder);
      await speak('sign-off', 'v1');
      const twice = await speak('sign-off', 'V1');
      expect(twice.code).toBe(2);
      expect(twice.err).toContain('has a version "V1" already');
      const none = await compare('v7');
      expect(none.code).toBe(2);
      expect(none.err).toContain('Versions of this hole: v1.');
    }));

  it('says that two runs of one number both count before it signs off', () =>
    inFolder(async (folder) => {
      const { speak } = await bookIn(folder);
      await speak('log', 'run', 'number=2', 'from=3.60 m', 'to=4.50 m', 'recovered=nothing');
      const done = await speak('sign-off', 'v1');
      expect(done.code).toBe(0);
      expect(done.err).toContain('Both runs B-R002 count in depths and totals until this is settled.');
    }));
});
