import { join } from 'node:path';
import { openReplica } from '@firnbook/journal';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { inFolder } from './folders.suite.ts';
import { openSqliteStore } from './store.ts';

const source = { now: () => 0, randomBytes: (length: number) => new Uint8Array(length) };

/** More than one handful of rows, from two devices that take turns. */
const rows = (() => {
  const [a, b] = ['tablet-a', 'tablet-b'].map((device) => chainOf(1500, { device }));
  return a!.flatMap((entry, at) => [entry, b![at]!]);
})();

async function journalIn(folder: string): Promise<string> {
  const file = join(folder, 'journal.sqlite');
  const store = openSqliteStore(file, suiteCampaign);
  await store.append(rows);
  await store.close();
  return file;
}

describe('openSqliteStore', () => {
  it('hands over once what its start-up check has opened: the same bytes, in order of storing', () =>
    inFolder(async (folder) => {
      const store = openSqliteStore(await journalIn(folder), suiteCampaign);
      const entries = store.handOver();
      expect(entries.map((entry) => entry.sealed)).toEqual(rows);
      expect(await store.load()).toEqual(rows);
      expect(store.handOver()).toEqual([]);
      const { ledger, damaged } = await openReplica(store, { ...source, opened: entries });
      expect([ledger.size, damaged.length]).toEqual([rows.length, 0]);
      await store.close();
    }));

  it('a replica over it still reads what another process stored after the check', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const store = openSqliteStore(file, suiteCampaign);
      const other = openSqliteStore(file, suiteCampaign);
      await other.append(chainOf(3, { device: 'tablet-c' }));
      await other.close();
      const { ledger } = await openReplica(store, { ...source, opened: store.handOver() });
      expect(ledger.size).toBe(rows.length + 3);
      await store.close();
    }));

  it('hands nothing over from a journal with one changed byte, and names the row', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const db = new Database(file);
      const guards = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
        name: string;
        sql: string;
      }[];
      for (const { name } of guards) db.exec(`DROP TRIGGER ${name}`);
      db.exec(`UPDATE entries SET body = replace(body, ',30 m', ',31 m') WHERE position = 2777`);
      for (const { sql } of guards) db.exec(sql);
      db.close();
      const store = openSqliteStore(file, suiteCampaign);
      expect(store.damage[0]?.position).toBe(2777);
      expect(store.handOver()).toEqual([]);
      const { ledger, damaged } = await openReplica(store, { ...source, opened: store.handOver() });
      expect(damaged.map(({ position }) => position)).toEqual([2776]);
      expect(ledger.size).toBe(rows.length - 1);
      await store.close();
    }));
});
