import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digestOf } from '@firnbook/journal';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { inFolder } from './folders.suite.ts';
import { openSqliteStore } from './store.ts';
import { verifyJournal } from './verify.ts';

/** Three devices' entries. */
const inOrder = ['tablet-a', 'tablet-b', 'tablet-c'].flatMap((device) => chainOf(20, { device }));

async function journalIn(folder: string): Promise<string> {
  const file = join(folder, 'journal.sqlite');
  const store = openSqliteStore(file, suiteCampaign);
  await store.append(inOrder);
  await store.close();
  return file;
}

/** Does to the file what only someone with a database tool can: the guards are taken off and put back. */
function tamper(file: string, work: (db: Database.Database) => void): void {
  const db = new Database(file);
  const guards = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
    name: string;
    sql: string;
  }[];
  for (const { name } of guards) db.exec(`DROP TRIGGER ${name}`);
  work(db);
  for (const { sql } of guards) db.exec(sql);
  db.close();
}

describe('verifyJournal', () => {
  it('finds nothing in a sound journal and gives the digest of its set', () =>
    inFolder(async (folder) => {
      const verdict = verifyJournal(await journalIn(folder));
      expect(verdict).toMatchObject({
        ok: true,
        entries: 60,
        withheld: 0,
        campaign: suiteCampaign,
        findings: [],
      });
      expect(verdict.digest).toBe(digestOf(inOrder.map((entry) => entry.hash)));
    }));

  const id = 'tablet-a-000017';
  const hits: readonly (readonly [string, string, RegExp, string | null])[] = [
    [
      'a changed body',
      `UPDATE entries SET body = replace(body, '17,30', '17,31') WHERE position = 17`,
      /body/,
      id,
    ],
    [
      'a changed head',
      `UPDATE entries SET head = replace(head, '"by":"ev"', '"by":"ab"') WHERE position = 17`,
      /head/,
      id,
    ],
    ['a changed hash', `UPDATE entries SET hash = '${'0'.repeat(64)}' WHERE position = 17`, /hash/, id],
    ['a body taken away', 'UPDATE entries SET body = NULL WHERE position = 17', /row was changed/, id],
    [
      'a signature put in',
      "UPDATE entries SET signature = 'c2lnbg' WHERE position = 17",
      /row was changed/,
      id,
    ],
    ['a removed row', 'DELETE FROM entries WHERE position = 17', /Row 17 is gone/, null],
    ['removed last rows', 'DELETE FROM entries WHERE position > 58', /Rows 59 to 60 are gone/, null],
    [
      'two rows exchanged',
      'UPDATE entries SET position = 999 WHERE position = 17; UPDATE entries SET position = 17 WHERE position = 18; UPDATE entries SET position = 18 WHERE position = 999',
      /entry before it on the same device is gone/,
      'tablet-a-000018',
    ],
    [
      'a row put in behind',
      "INSERT INTO entries SELECT 61, '1' || substr(hash, 2), head, body, signature, trail FROM entries WHERE position = 60",
      /hash/,
      'tablet-c-000020',
    ],
  ];
  it.each(hits)('%s is found and the place named', (_what, sql, words, named) =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      tamper(file, (db) => db.exec(sql));
      const { ok, findings } = verifyJournal(file);
      expect(ok).toBe(false);
      const hit = findings.find((finding) => words.test(finding.what));
      expect(hit).toBeDefined();
      if (named !== null) expect(findings.map((finding) => finding.id)).toContain(named);
      expect(hit?.where).toContain('row');
    }),
  );

  it('J3: the file itself refuses to change or remove an entry', () =>
    inFolder(async (folder) => {
      const db = new Database(await journalIn(folder));
      expect(() => db.exec("UPDATE entries SET body = '' WHERE position = 1")).toThrow('never changed');
      expect(() => db.exec('DELETE FROM entries')).toThrow('never removed');
      db.close();
    }));

  it('guards that were taken off the file are missed', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const db = new Database(file);
      db.exec('DROP TRIGGER entries_are_never_removed');
      db.close();
      expect(verifyJournal(file).findings[0]?.what).toContain('guard');
    }));

  it('of 1,200 flipped bits, all that change what is read are found, and the entry is named', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const sound = readFileSync(file);
      const before = contentOf(file);
      const flipped = join(folder, 'flipped.sqlite');
      let changed = 0;
      let named = 0;
      for (let step = 0; step < 1200; step += 1) {
        // A stride that shares no factor with the page size spreads the hits over every part of every page.
        const at = (step * 7919 + 13) % sound.length;
        const bytes = Buffer.from(sound);
        bytes[at] = bytes[at]! ^ (1 << (step % 8));
        writeFileSync(flipped, bytes);
        const verdict = verifyJournal(flipped);
        const after = contentOf(flipped);
        const place = before.findIndex((row, index) => row !== after[index]);
        if (place < 0 && after.length === before.length) continue;
        changed += 1;
        if (verdict.ok) throw new Error(`bit ${step % 8} of byte ${at} changed the content unseen`);
        // A row that can't be read any more has no name; one that reads differently must be told by place.
        if (after.length !== before.length) continue;
        if (!verdict.findings.some((finding) => finding.position === place + 1))
          throw new Error(`bit ${step % 8} of byte ${at} changed row ${place + 1}, which is not named`);
        named += 1;
      }
      // The control of this test: many hits must have changed something.
      expect(changed).toBeGreaterThan(420);
      expect(named).toBeGreaterThan(300);
    }));

  it('of flipped bits in the numbers and lengths before a row’s text, each that changes a row names it', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const sound = readFileSync(file);
      const before = contentOf(file);
      const flipped = join(folder, 'flipped.sqlite');
      let named = 0;
      for (const row of [17, 44]) {
        const { hash, head } = inOrder[row - 1]!;
        const text = sound.indexOf(hash + head);
        // Two lengths, the row's number and the types of its columns take some 14 bytes.
        for (let step = 0; step < 15 * 8; step += 1) {
          const bytes = Buffer.from(sound);
          bytes[text - 1 - (step >> 3)]! ^= 1 << (step % 8);
          writeFileSync(flipped, bytes);
          const verdict = verifyJournal(flipped);
          const after = contentOf(flipped);
          const place = before.findIndex((one, index) => one !== after[index]);
          if (place < 0 && after.length === before.length) continue;
          expect(verdict.ok).toBe(false);
          if (after.length !== before.length) continue;
          expect(verdict.findings.map(({ position }) => position)).toContain(place + 1);
          named += 1;
        }
      }
      expect(named).toBeGreaterThan(30);
    }));

  it.each([
    ['cut off', (bytes: Buffer) => bytes.subarray(0, bytes.length - 4096)],
    ['a page of zeros', (bytes: Buffer) => Buffer.from(bytes).fill(0, 8192, 12288)],
    ['no database', () => Buffer.from('depth_m,length_m\n12.30,0.55\n')],
  ])('%s: it says that the file is damaged, and no error comes out', (_what, damage) =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      writeFileSync(file, damage(readFileSync(file)));
      const { ok, findings } = verifyJournal(file);
      expect(ok).toBe(false);
      expect(findings[0]?.mend).toContain('Keep the file');
    }),
  );

  it('a file that is not there is a finding', () => {
    expect(verifyJournal('/nowhere/journal.sqlite').findings[0]?.what).toContain('not there');
  });
});

describe('openSqliteStore of a damaged journal', () => {
  it('reads what is whole, refuses to write, and leaves every byte as it was', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      tamper(file, (db) => db.exec("UPDATE entries SET body = 'no' WHERE position = 5"));
      const kept = join(folder, 'kept');
      copyFileSync(file, kept);
      const store = openSqliteStore(file, suiteCampaign);
      expect(store.damage.map((finding) => finding.id)).toContain('tablet-a-000005');
      expect((await store.load()).length).toBe(60);
      await expect(store.append(chainOf(1, { device: 'tablet-d' }))).rejects.toThrow('damaged');
      await expect(store.setNote('device', 'x')).rejects.toThrow('damaged');
      await store.close();
      expect(readFileSync(file).equals(readFileSync(kept))).toBe(true);
    }));

  it('opens even when nothing can be read', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      const bytes = readFileSync(file);
      writeFileSync(file, bytes.fill(0x5a, 16, 4096));
      const store = openSqliteStore(file, suiteCampaign);
      expect(store.damage.length).toBeGreaterThan(0);
      expect(await store.load()).toEqual([]);
      await store.close();
    }));
});

/** Every row that a reader gets from the file, up to the first that it can't have. */
function contentOf(file: string): readonly string[] {
  const rows: string[] = [];
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true });
    const all = db.prepare('SELECT position, hash, head, body, signature FROM entries ORDER BY position');
    for (const row of all.iterate()) rows.push(JSON.stringify(row));
  } catch {
    // What was read until here is the content.
  } finally {
    db?.close();
  }
  return rows;
}
