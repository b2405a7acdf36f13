import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Entry, Sealed, Store } from '@firnbook/journal';
import { admit } from '../admit.ts';
import { isTrouble, type StoreTrouble, trouble } from '../trouble.ts';
import { type Connection, openForReading, openForWriting } from './connection.ts';
import { flushFile, flushFolder, makeFolder } from './flush.ts';
import { ioTrouble } from './io-trouble.ts';
import { rollBackHalfMade } from './roll-back.ts';
import { epochOf, holdToOurs, migrate } from './schema.ts';
import { nextTrail } from './trail.ts';
import { bare, type Checked, checkAndOpen, checkInTurns, type Finding, rowsOf } from './verify.ts';

/**
 * A journal in one SQLite file.
 *
 * PostgreSQL as a third engine: a table `entries` with the same columns and `campaign` in front of each key, the
 * two triggers, `position` given under `pg_advisory_xact_lock(campaign)` (a bigserial becomes visible out of
 * order), `synchronous_commit = on` read back as here, and this interface over it. Nothing above the interface
 * knows SQLite; `admit`, the trail, the conformance suite and the group commit below are engine-free.
 */
export interface SqliteStore extends Store {
  readonly file: string;
  /** What the start-up check found. Not empty: the file is open for reading alone, and append refuses. */
  readonly damage: readonly Finding[];
  loadAfter(count: number): Promise<readonly Sealed[]>;
  /**
   * What the start-up check has read and opened, in order of storing, handed over once so that nobody reads it again;
   * empty afterwards, and where it found damage.
   */
  handOver(): readonly Entry[];
}

/**
 * Opens a journal, after reading all of it for damage, or makes an empty one.
 *
 * @param file path of the journal; its folder is made
 * @throws StoreTrouble 'unsafe', 'newer version', 'refused' (another campaign's file, no journal at all),
 *   'disk full' or 'unknown fate'
 */
export function openSqliteStore(file: string, campaign: string): SqliteStore {
  if (!existsSync(file)) return openChecked(file, campaign, NOTHING);
  rollBackHalfMade(file);
  return openChecked(file, campaign, checkAndOpen(file));
}

/**
 * The same while others have their turns: nothing is written, and nobody has the store, before all of it is checked.
 *
 * @param turn see `checkInTurns`
 * @throws as `openSqliteStore`, and what `turn` rejects with
 */
export async function openSqliteStoreInTurns(
  file: string,
  campaign: string,
  turn: () => Promise<void>,
): Promise<SqliteStore> {
  if (!existsSync(file)) return openChecked(file, campaign, NOTHING);
  rollBackHalfMade(file);
  return openChecked(file, campaign, await checkInTurns(file, turn));
}

const NOTHING: Checked = { findings: [], entries: [] };

function openChecked(file: string, campaign: string, { findings, entries }: Checked): SqliteStore {
  if (findings.length > 0) {
    refuseStranger(file);
    return damagedStore(file, campaign, findings);
  }
  let db: Connection | null = null;
  try {
    makeFolder(dirname(file));
    db = openForWriting(file);
    migrate(db, campaign);
    flushFile(file);
    flushFolder(dirname(file));
  } catch (error) {
    db?.close();
    throw ioTrouble(error, file);
  }
  return soundStore(db, campaign, entries);
}

interface Waiting {
  readonly batch: readonly Sealed[];
  readonly resolve: () => void;
  readonly reject: (error: StoreTrouble) => void;
}

function soundStore(db: Connection, campaign: string, checked: readonly Entry[]): SqliteStore {
  const held = db.prepare('SELECT 1 FROM entries WHERE hash = ?').pluck();
  const insert = db.prepare('INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?)');
  const tail = db.prepare('SELECT position, trail FROM tail');
  const setTail = db.prepare('UPDATE tail SET position = ?, trail = ?');
  const writeNote = db.prepare(
    'INSERT INTO notes VALUES (?, ?) ON CONFLICT DO UPDATE SET text = excluded.text',
  );
  let waiting: Waiting[] = [];
  let unread = checked;

  const keep = db.transaction((batches: readonly Waiting[]) => {
    // Read inside the transaction: another opener of this file may have stored rows meanwhile.
    let { position, trail } = tail.get() as { position: number; trail: string };
    const start = position;
    for (const { batch } of batches) {
      for (const sealed of batch) {
        if (held.get(sealed.hash) !== undefined) continue;
        position += 1;
        trail = nextTrail(trail, position, sealed);
        insert.run(position, sealed.hash, sealed.head, sealed.body, sealed.signature, trail);
      }
    }
    if (position !== start) setTail.run(position, trail);
  });

  /** One transaction and one flush for everybody who waits; then all are answered. */
  function commit(): void {
    const taken = waiting;
    waiting = [];
    if (taken.length === 0) return;
    try {
      keep.immediate(taken);
    } catch (error) {
      const reason = ioTrouble(error, db.name);
      for (const each of taken) each.reject(reason);
      return;
    }
    for (const each of taken) each.resolve();
  }

  function live(): void {
    if (!db.open) throw closed(db.name);
  }

  return {
    campaign,
    file: db.name,
    damage: [],
    load: async () => {
      live();
      return readAfter(db, 0);
    },
    loadAfter: async (position) => {
      live();
      return readAfter(db, position);
    },
    handOver: () => {
      const entries = unread;
      unread = [];
      return entries;
    },
    append: async (batch) => {
      live();
      admit(campaign, batch);
      if (batch.length === 0) return;
      await new Promise<void>((resolve, reject) => {
        // The requests that arrived in this turn of the event loop queue up before the immediate runs; those
        // that arrive while the disk flushes queue up for the next one. No one waits on a timer.
        if (waiting.length === 0) setImmediate(commit);
        waiting.push({ batch, resolve, reject });
      });
    },
    epoch: async () => {
      live();
      return epochOf(db);
    },
    note: async (name) => {
      live();
      return noteOf(db, name);
    },
    setNote: async (name, text) => {
      live();
      try {
        writeNote.run(name, text);
      } catch (error) {
        throw ioTrouble(error, db.name);
      }
    },
    close: async () => {
      if (!db.open) return;
      commit();
      db.close();
    },
  };
}

/** A file that isn't ours, or is from a later program, is no damaged journal: it is refused, not read. */
function refuseStranger(file: string): void {
  let db: Connection | null = null;
  try {
    db = openForReading(file);
    holdToOurs(db);
  } catch (error) {
    if (isTrouble(error)) throw error;
  } finally {
    db?.close();
  }
}

function damagedStore(file: string, campaign: string, damage: readonly Finding[]): SqliteStore {
  const db = openIfReadable(file);
  const look = <T>(read: (db: Connection) => T, otherwise: T): T => {
    try {
      return db === null ? otherwise : read(db);
    } catch {
      // Said in `damage` already.
      return otherwise;
    }
  };
  const refuse = async () => {
    throw trouble(
      'damaged',
      `The journal is damaged (${damage.length} findings, the first: ${damage[0]?.what}), so nothing is written into it`,
      damage[0]?.where ?? file,
      'Keep the file. Restore the newest good backup, then let the tablets sync: what they hold comes back.',
    );
  };
  // Damaged rows are passed on too: the replica names them and reads all others.
  const loadAfter = async (count: number) =>
    db === null ? [] : [...rowsOf(db, () => undefined)].slice(count).map(bare);
  return {
    campaign,
    file,
    damage,
    load: () => loadAfter(0),
    loadAfter,
    handOver: () => [],
    append: refuse,
    epoch: async () => look(epochOf, 'unknown'),
    note: async (name) => look((from) => noteOf(from, name), null),
    setNote: refuse,
    close: async () => {
      db?.close();
    },
  };
}

function openIfReadable(file: string): Connection | null {
  try {
    return openForReading(file);
  } catch {
    return null;
  }
}

function noteOf(db: Connection, name: string): string | null {
  return (
    (db.prepare('SELECT text FROM notes WHERE name = ?').pluck().get(name) as string | undefined) ?? null
  );
}

function readAfter(db: Connection, position: number): readonly Sealed[] {
  return db
    .prepare('SELECT hash, head, body, signature FROM entries WHERE position > ? ORDER BY position')
    .all(position) as Sealed[];
}

function closed(file: string): StoreTrouble {
  return trouble('closed', 'The journal was closed', file, 'Open it again.');
}
