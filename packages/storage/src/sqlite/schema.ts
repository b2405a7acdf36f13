import { randomUUID } from 'node:crypto';
import { trouble } from '../trouble.ts';
import type { Connection } from './connection.ts';

/** Marks the file as one of ours: "FIRN" in ASCII. */
const applicationId = 0x4649524e;

/**
 * The way from an empty file to today's schema, one step per version; a step that shipped is never edited.
 * Each runs in a transaction together with its version number, so a file is at the old or the new version.
 *
 * Version 1. `position` is the order of arrival and survives VACUUM (an implicit rowid need not). `trail` is a
 * running digest over the rows up to this one and `tail` remembers where it ended, so that a row that was
 * removed, moved or cut off shows even when it was the last of its device's chain.
 */
const steps: readonly ((db: Connection, campaign: string) => void)[] = [
  (db, campaign) => {
    db.exec(`
      CREATE TABLE entries (
        position INTEGER PRIMARY KEY,
        hash TEXT NOT NULL UNIQUE,
        head TEXT NOT NULL,
        body TEXT,
        signature TEXT,
        trail TEXT NOT NULL
      ) STRICT;
      CREATE TRIGGER entries_are_never_changed BEFORE UPDATE ON entries
        BEGIN SELECT RAISE(ABORT, 'an entry is never changed: write a correction'); END;
      CREATE TRIGGER entries_are_never_removed BEFORE DELETE ON entries
        BEGIN SELECT RAISE(ABORT, 'an entry is never removed: write a withdrawal'); END;
      CREATE TABLE tail (
        one INTEGER PRIMARY KEY CHECK (one = 1),
        position INTEGER NOT NULL,
        trail TEXT NOT NULL
      ) STRICT;
      CREATE TABLE notes (name TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT, WITHOUT ROWID;
      CREATE TABLE life (name TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT, WITHOUT ROWID;
    `);
    db.prepare('INSERT INTO tail VALUES (1, 0, ?)').run('');
    const say = db.prepare('INSERT INTO life VALUES (?, ?)');
    say.run('campaign', campaign);
    say.run('epoch', randomUUID());
  },
];

export const schemaVersion = steps.length;

/** 0 for an empty file. */
export function versionOf(db: Connection): number {
  return Number(db.pragma('user_version', { simple: true }));
}

/**
 * Brings the file to this program's version.
 *
 * @throws StoreTrouble 'newer version' for a file that a later program wrote, 'refused' for a stranger's file
 *   or another campaign's.
 */
export function migrate(db: Connection, campaign: string): void {
  holdToOurs(db);
  for (let version = versionOf(db); version < schemaVersion; version += 1) {
    db.transaction(() => {
      // Another opener may have taken this step while we waited for the lock.
      if (versionOf(db) !== version) return;
      steps[version]?.(db, campaign);
      db.pragma(`application_id = ${applicationId}`);
      db.pragma(`user_version = ${version + 1}`);
    }).immediate();
  }
  const held = campaignOf(db);
  if (held !== campaign)
    throw trouble(
      'refused',
      `The file holds campaign ${held}, not ${campaign}`,
      db.name,
      'Put each campaign into the folder of its own name.',
    );
}

/** Refuses a database that isn't a journal of this program, or is one from a later version of it. */
export function holdToOurs(db: Connection): void {
  const version = versionOf(db);
  const tables = Number(db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
  const mark = Number(db.pragma('application_id', { simple: true }));
  if (mark !== applicationId && (tables > 0 || version > 0))
    throw trouble('refused', 'The file is not a journal', db.name, 'Move it out of the data folder.');
  if (version > schemaVersion)
    throw trouble(
      'newer version',
      `The journal was written by a newer program (schema ${version}, this one knows ${schemaVersion})`,
      db.name,
      'Start the newer program; nothing was changed here.',
    );
}

export function campaignOf(db: Connection): string {
  return String(db.prepare("SELECT text FROM life WHERE name = 'campaign'").pluck().get());
}

export function epochOf(db: Connection): string {
  return String(db.prepare("SELECT text FROM life WHERE name = 'epoch'").pluck().get());
}

/**
 * Starts another life of the same journal: what peers were told about the old one counts no more, and who wrote
 * here before must come back as a new device, since entries written after the backup may be out there already.
 */
export function beginNewLife(db: Connection): void {
  db.transaction(() => {
    db.prepare("UPDATE life SET text = ? WHERE name = 'epoch'").run(randomUUID());
    db.exec('DELETE FROM notes');
  }).immediate();
}
