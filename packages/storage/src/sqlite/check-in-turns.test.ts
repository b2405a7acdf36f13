import { existsSync, readdirSync, readFileSync, readlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { inFolder } from './folders.suite.ts';
import { openSqliteStore, openSqliteStoreInTurns } from './store.ts';
import { checkStructureApart } from './structure-apart.ts';
import { checkAndOpen, checkInTurns } from './verify.ts';

const rows = chainOf(4_100, { device: 'tablet-a' });

async function journalIn(folder: string): Promise<string> {
  const file = join(folder, 'journal.sqlite');
  const store = openSqliteStore(file, suiteCampaign);
  await store.append(rows);
  await store.close();
  return file;
}

const turn = () => setImmediate();

/** Files below a folder that this process has open (Linux). */
const openBelow = (folder: string): readonly string[] =>
  readdirSync('/proc/self/fd').flatMap((handle) => {
    try {
      const file = readlinkSync(`/proc/self/fd/${handle}`);
      return file.startsWith(folder) ? [file] : [];
    } catch {
      return [];
    }
  });

describe('checkInTurns', () => {
  it('finds and opens what the check at once does, and lets others have a turn after every 2,000 rows', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      let turns = 0;
      const checked = await checkInTurns(file, async () => {
        turns += 1;
      });
      expect(checked).toEqual(checkAndOpen(file));
      expect(checked.entries).toHaveLength(4_100);
      expect(turns).toBe(3);
    }));

  it('names the same damage', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const bytes = readFileSync(file);
      bytes.write('X', bytes.indexOf(rows[2_500]!.head) + 3);
      writeFileSync(file, bytes);
      const checked = await checkInTurns(file, turn);
      expect(checked.findings.map(({ position }) => position)).toContain(2_501);
      expect(checked).toEqual(checkAndOpen(file));
    }));

  it('ends with what a turn rejects with, and leaves the file', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      let turns = 0;
      const stopping = async () => {
        turns += 1;
        if (existsSync('/proc/self/fd')) expect(openBelow(folder)).toContain(file);
        if (turns === 2) throw new Error('it is closing');
      };
      await expect(openSqliteStoreInTurns(file, suiteCampaign, stopping)).rejects.toThrow('it is closing');
      if (existsSync('/proc/self/fd')) expect(openBelow(folder)).toEqual([]);
    }));

  it('a store that was checked in turns is the same store', () =>
    inFolder(async (folder) => {
      const store = await openSqliteStoreInTurns(await journalIn(folder), suiteCampaign, turn);
      expect(store.damage).toEqual([]);
      expect(store.handOver().map((entry) => entry.sealed)).toEqual(rows);
      await store.append(chainOf(1, { device: 'tablet-b' }));
      expect(await store.load()).toHaveLength(4_101);
      await store.close();
    }));
});

describe('checkStructureApart', () => {
  const isSound = (file: string) => checkStructureApart(file).isSound();

  it('says what the check of the structure says, from a thread of its own', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      expect(await isSound(file)).toBe(true);
      const db = new Database(file);
      db.exec('DROP TRIGGER entries_are_never_removed');
      db.close();
      expect(await isSound(file)).toBe(false);
    }));

  it('a file that is none, or is not there, is not called sound', () =>
    inFolder(async (folder) => {
      const file = join(folder, 'other');
      expect(await isSound(file)).toBe(false);
      writeFileSync(file, 'no journal at all');
      expect(await isSound(file)).toBe(false);
    }));

  it('answers also when it is stopped', () =>
    inFolder(async (folder) => {
      const structure = checkStructureApart(await journalIn(folder));
      structure.stop();
      expect(await structure.isSound()).toBe(false);
    }));
});
