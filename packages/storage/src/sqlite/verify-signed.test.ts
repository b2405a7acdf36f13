import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { type Draft, openReplica } from '@firnbook/journal';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { openDeviceKey } from './device-key.ts';
import { verifyEd25519 } from './ed25519.ts';
import { inFolder } from './folders.suite.ts';
import { openSqliteStore } from './store.ts';
import { nextTrail } from './trail.ts';
import { verifyJournal } from './verify.ts';
import { verifySigned } from './verify-signed.ts';

const draft = (id: string): Draft => ({
  id,
  kind: 'run.logged',
  version: 1,
  observedAt: '2031-01-17T09:40:00+01:00',
  by: 'ev',
  body: { hole: 'cer-a', number: id, from: '12,30 m' },
});

/** Three entries by a device from before there were keys, then three that this computer signs. */
async function journalIn(folder: string): Promise<string> {
  const file = join(folder, 'journal.sqlite');
  const store = openSqliteStore(file, suiteCampaign);
  await store.append(chainOf(3, { device: 'old-tablet' }));
  const replica = await openReplica(store, {
    now: Date.now,
    randomBytes: (length) => randomBytes(length),
    signer: openDeviceKey(folder),
    verify: verifyEd25519,
  });
  await replica.write(['1', '2', '3'].map(draft));
  await store.close();
  return file;
}

/** Changes a row and mends the running digest behind it, as somebody would who knows this program. */
function tamper(file: string, sql: string): void {
  const db = new Database(file);
  const guards = db.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").all() as {
    readonly name: string;
    readonly sql: string;
  }[];
  for (const { name } of guards) db.exec(`DROP TRIGGER ${name}`);
  db.exec(sql);
  let trail = '';
  for (const row of db.prepare('SELECT * FROM entries ORDER BY position').all() as {
    readonly position: number;
    readonly hash: string;
    readonly head: string;
    readonly body: string;
    readonly signature: string | null;
  }[]) {
    trail = nextTrail(trail, row.position, row);
    db.prepare('UPDATE entries SET trail = ? WHERE position = ?').run(trail, row.position);
  }
  db.prepare('UPDATE tail SET trail = ?').run(trail);
  for (const { sql: text } of guards) db.exec(text);
  db.close();
}

describe('verifySigned', () => {
  it('counts what is signed and what is not', () =>
    inFolder(async (folder) => {
      const verdict = verifySigned(await journalIn(folder));
      expect(verdict).toMatchObject({
        ok: true,
        entries: 6,
        findings: [],
        signatures: { signed: 3, unsigned: 3, unknownKey: 0, wrong: 0 },
      });
    }));

  it.each([
    ["another entry's", '(SELECT signature FROM entries WHERE position = 5)', /not by its device's key/],
    ['no', 'NULL', /missing/],
    ['half a', 'substr(signature, 1, 40)', /not 64 bytes/],
  ])('J9: names an entry with %s signature, also where the running digest was mended', (_, value, problem) =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      tamper(file, `UPDATE entries SET signature = ${value} WHERE position = 6`);
      const { findings, ok, signatures } = verifySigned(file);
      expect([ok, signatures.wrong, signatures.signed]).toEqual([false, 1, 2]);
      expect(findings).toHaveLength(1);
      expect(findings[0]!.what).toMatch(problem);
      expect(findings[0]!.where).toContain('entry 3');
      // The control: without the signatures nobody would know.
      expect(verifyJournal(file).ok).toBe(true);
    }),
  );

  it('a signature under a key that this program cannot read is counted, not called wrong', () =>
    inFolder(async (folder) => {
      const file = await journalIn(folder);
      tamper(file, `UPDATE entries SET signature = 'by-a-later-kind-of-key' WHERE position = 2`);
      const { ok, signatures } = verifySigned(file);
      expect([ok, signatures.unknownKey, signatures.unsigned]).toEqual([true, 1, 2]);
    }));
});
