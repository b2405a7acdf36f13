import Database from 'better-sqlite3';
import { trouble } from '../trouble.ts';

export type Connection = Database.Database;

/** SQLite before this could corrupt a WAL when two connections write and checkpoint (fixed in 3.51.3). */
const oldestSafeVersion = '3.51.3';

/**
 * Opens a journal file for writing with every setting that durability rests on, and reads each one back:
 * the binding is compiled so that WAL silently means synchronous=NORMAL, which loses entries in a power cut.
 *
 * @throws StoreTrouble 'unsafe' when a setting did not take.
 */
export function openForWriting(file: string): Connection {
  const db = new Database(file);
  try {
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = FULL');
    db.pragma('fullfsync = ON');
    db.pragma('checkpoint_fullfsync = ON');
    db.pragma('foreign_keys = ON');
    db.pragma('mmap_size = 0');
    db.pragma('trusted_schema = OFF');
    db.pragma('cell_size_check = ON');
    holdToDurable(db);
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** Opens for reading alone: a check must never change what it looks at. */
export function openForReading(file: string): Connection {
  const db = new Database(file, { readonly: true, fileMustExist: true });
  try {
    db.pragma('mmap_size = 0');
    // kB: the structure's check looks every row up in an index, which does not fit into SQLite's usual 2 MB.
    db.pragma('cache_size = -64000');
    db.pragma('trusted_schema = OFF');
    db.pragma('cell_size_check = ON');
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** Reads the settings back and refuses to go on with any that would let an acknowledged entry be lost. */
export function holdToDurable(db: Connection): void {
  const version = String(db.prepare('SELECT sqlite_version()').pluck().get());
  if (compareVersions(version, oldestSafeVersion) < 0)
    throw unsafe(
      db,
      `SQLite is ${version}`,
      `Install a build that brings SQLite ${oldestSafeVersion} or newer.`,
    );
  const wanted: readonly (readonly [string, number | string])[] = [
    ['journal_mode', 'wal'],
    ['synchronous', 2],
    ['foreign_keys', 1],
    ['mmap_size', 0],
  ];
  for (const [name, value] of wanted) {
    const got: unknown = db.pragma(name, { simple: true });
    if (got !== value)
      throw unsafe(
        db,
        `The setting ${name} is ${String(got)}, not ${value}`,
        'Put the data folder on a local disk that this computer may lock and flush.',
      );
  }
}

function unsafe(db: Connection, what: string, mend: string) {
  return trouble('unsafe', `${what}: entries could be lost in a power cut`, db.name, mend);
}

function compareVersions(a: string, b: string): number {
  const left = a.split('.').map(Number);
  const right = b.split('.').map(Number);
  for (let index = 0; index < 3; index += 1) {
    const difference = (left[index] ?? 0) - (right[index] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
