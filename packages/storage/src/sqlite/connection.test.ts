import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, it } from 'vitest';
import { holdToDurable, openForWriting } from './connection.ts';
import { inFolder } from './folders.suite.ts';

it('J4: openForWriting flushes at every commit and reads the settings back', () =>
  inFolder((folder) => {
    const db = openForWriting(join(folder, 'a.sqlite'));
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
    expect(db.pragma('mmap_size', { simple: true })).toBe(0);
    db.close();
  }));

it.each([
  ['synchronous = NORMAL', 'The setting synchronous is 1, not 2'],
  ['journal_mode = DELETE', 'The setting journal_mode is delete, not wal'],
  ['foreign_keys = OFF', 'The setting foreign_keys is 0, not 1'],
  ['mmap_size = 65536', 'The setting mmap_size is 65536, not 0'],
])('J4: holdToDurable refuses %s', (pragma, words) =>
  inFolder((folder) => {
    const db = openForWriting(join(folder, 'a.sqlite'));
    db.pragma(pragma);
    expect(() => holdToDurable(db)).toThrow(words);
    db.close();
  }),
);

it('the binding alone would not be safe: WAL means synchronous=NORMAL there', () =>
  inFolder((folder) => {
    const db = new Database(join(folder, 'a.sqlite'));
    db.pragma('journal_mode = WAL');
    // From the first page that is read on.
    db.exec('CREATE TABLE t (x)');
    expect(db.pragma('synchronous', { simple: true })).toBe(1);
    db.close();
  }));
