import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { inFolder } from './folders.suite.ts';
import { schemaVersion } from './schema.ts';
import { openSqliteStore } from './store.ts';

it('J5: a journal of a newer program is refused and left as it is', () =>
  inFolder(async (folder) => {
    const file = join(folder, 'journal.sqlite');
    const store = openSqliteStore(file, suiteCampaign);
    await store.append(chainOf(3));
    await store.close();
    const db = new Database(file);
    db.pragma(`user_version = ${schemaVersion + 1}`);
    db.close();
    const before = readFileSync(file);
    expect(() => openSqliteStore(file, suiteCampaign)).toThrow('newer program');
    expect(readFileSync(file).equals(before)).toBe(true);
  }));

it('a database of another program is refused', () =>
  inFolder((folder) => {
    const file = join(folder, 'journal.sqlite');
    const db = new Database(file);
    db.exec('CREATE TABLE entries (a)');
    db.close();
    expect(() => openSqliteStore(file, suiteCampaign)).toThrow('not a journal');
  }));

it("another campaign's journal is refused", () =>
  inFolder(async (folder) => {
    const file = join(folder, 'journal.sqlite');
    await openSqliteStore(file, suiteCampaign).close();
    expect(() => openSqliteStore(file, 'another')).toThrow(suiteCampaign);
  }));

it('an empty file, as a crash at the very beginning leaves it, becomes a journal', () =>
  inFolder(async (folder) => {
    const file = join(folder, 'journal.sqlite');
    new Database(file).close();
    const store = openSqliteStore(file, suiteCampaign);
    await store.append(chainOf(1));
    expect((await store.load()).length).toBe(1);
    await store.close();
  }));
