import { copyFileSync, existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { openForReading } from './connection.ts';
import { inFolder } from './folders.suite.ts';
import { openSqliteStore } from './store.ts';

it('a file whose making was killed half way is made anew by the next start; control: a reader is refused', () =>
  inFolder(async (folder) => {
    const making = new Database(join(folder, 'making.sqlite'));
    // Else the mark that makes the journal one to be played back comes only just before the commit.
    making.pragma('synchronous = OFF');
    making.exec('CREATE TABLE anything (one INTEGER); DROP TABLE anything; VACUUM;');
    making.exec('BEGIN; CREATE TABLE half (one INTEGER);');
    // What a kill leaves at this moment.
    const file = join(folder, 'journal.sqlite');
    for (const end of ['', '-journal']) copyFileSync(join(folder, `making.sqlite${end}`), file + end);
    making.close();

    expect(() => openForReading(file).close()).toThrow();
    const store = openSqliteStore(file, suiteCampaign);
    await store.append(chainOf(2));
    expect(await store.load()).toHaveLength(2);
    expect(store.damage).toEqual([]);
    await store.close();
    expect(existsSync(`${file}-journal`)).toBe(false);
  }));
