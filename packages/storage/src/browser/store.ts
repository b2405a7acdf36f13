import type { Sealed, Store } from '@firnbook/journal';
import { type DBSchema, type IDBPDatabase, openDB, unwrap } from 'idb';
import { admit } from '../admit.ts';
import { isTrouble, trouble } from '../trouble.ts';
import { type Guard, roomGuard } from './guard.ts';
import { lasting, reopeningBytes } from './lasting.ts';
import { type LineFile, type OpenLineFile, openLineFile } from './line-file.ts';
import { randomId } from './random-id.ts';
import { renewalBytes, renewLog } from './renew-log.ts';
import { openSecondCopy, type SecondCopy } from './second-copy.ts';
import { settled } from './settled.ts';

/** A journal in this browser: one IndexedDB database per campaign, and a file that holds the same once more. */
export interface BrowserStore extends Store {
  loadAfter(count: number): Promise<readonly Sealed[]>;
  /** One where this browser or address offers no files: a crash of the browser can take such a journal. */
  readonly copies: 1 | 2;
  /** Entries that the browser had dropped and that came back from the file when this store was opened. */
  readonly putBack: number;
}

interface Layout extends DBSchema {
  entries: { key: number; value: Sealed; indexes: { hash: string } };
  notes: { key: string; value: string };
  life: { key: string; value: string };
}

/** The browser's default is to answer before the disk has it; a power cut then takes everything that was "saved". */
const strict = { durability: 'strict' } as const;

/** Entries that are put back at once. */
const together = 1000;

/**
 * Opens the journal of a campaign on this device, or makes an empty one. Safe in several tabs at once: appends
 * of one batch are one transaction, and positions follow each other without a gap.
 *
 * A strict commit alone is no promise: Chromium drops the whole database at a later start where a kill came between
 * the two writes of one record of its log (ARCHITECTURE.md, "What a browser can still lose"). So an append resolves
 * when the file has the entries too, and opening puts back what was dropped. Nor is anything written behind a record
 * that a kill may have torn: opening begins a new log, and the first append waits for it.
 *
 * Nothing is written where the guard finds no room, and every write that fails is told to it. A database that the
 * browser closes is opened again as soon as there is room. Where it was dropped by then, it gets back what was read of it
 * and added to it here, and the answer is 'closed': the page has to be loaded again.
 *
 * @param openFile where the second copy goes; a test may have none
 * @param renew begins the new log; a test may leave the torn one
 * @throws StoreTrouble 'refused' for another campaign's database, 'unknown fate' when the browser stays silent
 */
export async function openBrowserStore(
  campaign: string,
  openFile: OpenLineFile = openLineFile,
  guard: Guard = roomGuard(),
  renew: typeof renewLog = renewLog,
): Promise<BrowserStore> {
  const name = `firnbook-${campaign}`;
  let isClosed = false;
  let renewal: Promise<void> | null = null;
  let second: SecondCopy | null = null;
  /** What whoever opened this has read of it or added, by hash. */
  const known = new Map<string, Sealed>();
  const remembered = (rows: readonly Sealed[]): readonly Sealed[] => {
    for (const row of rows) known.set(row.hash, row);
    return rows;
  };
  await guard.begin();
  const opened = await settled(openDatabase(name), 'Opening the journal', name);
  const epoch = await settled(beginLife(opened, campaign), 'Opening the journal', name);

  const closed = () =>
    trouble('closed', 'The journal was closed', name, 'Open it again, or load the page again.');

  const connection = lasting(opened, async () => {
    await guard.admit(reopeningBytes);
    const again = await settled(openDatabase(name), 'Opening the journal', name);
    try {
      const life = await settled(beginLife(again, campaign), 'Opening the journal', name);
      const count = await settled(again.count('entries'), 'Reading the journal', name);
      const isSame = life === epoch && count >= Math.max(known.size, second?.at ?? 0);
      if (!isSame) await putBackTo(again);
      if (!isSame || isClosed) throw closed();
    } catch (error) {
      again.close();
      throw error;
    }
    renewal = null;
    return again;
  });

  /**
   * Dropped or set back meanwhile. The page knows what was in it, and that can be all there is: with the database the
   * browser may have dropped the files. Only then is it time for a new opening.
   */
  const putBackTo = async (database: IDBPDatabase<Layout>): Promise<void> => {
    const rows = [...known.values()];
    await guard.admit(rows.reduce((bytes, row) => bytes + row.head.length + (row.body?.length ?? 0), 0));
    try {
      for (let from = 0; from < rows.length; from += together)
        await settled(write(database, rows.slice(from, from + together)), 'Putting back', name);
    } catch (error) {
      await guard.failed();
      throw error;
    }
  };

  const live = async (): Promise<IDBPDatabase<Layout>> => {
    if (isClosed) throw closed();
    return connection.now();
  };

  const loadAfter = async (count: number, atMost?: number): Promise<readonly Sealed[]> => {
    const db = await live();
    const after = count === 0 ? null : IDBKeyRange.lowerBound(count, true);
    return settled(db.getAll('entries', after, atMost), 'Reading the journal', name);
  };

  const first = {
    epoch,
    count: async () => settled((await live()).count('entries'), 'Reading the journal', name),
    loadAfter,
    add: async (batch: readonly Sealed[]) => {
      const ours = batch.filter((sealed) => isAdmitted(campaign, sealed));
      if (ours.length > 0) await settled(write(await live(), ours), 'Putting back', name);
    },
  };
  const file = await openFile(`${name}.jsonl`);
  if (file !== null) second = await openSecondCopy(first, calm(file, name), name);

  /**
   * Once, before the first entry and not at the opening: who only looks writes nothing. Without room for it the second
   * copy has to do. Never rejects.
   */
  const renewed = (db: IDBPDatabase<Layout>): Promise<void> => (renewal ??= renewNow(db));

  async function renewNow(db: IDBPDatabase<Layout>): Promise<void> {
    if (!(await guard.hasRoom(renewalBytes))) return;
    try {
      await renew(unwrap(db), name);
    } catch {
      if (!isClosed) await guard.failed();
    }
  }

  /** Writes only where there is room. */
  const guarded = async (work: (db: IDBPDatabase<Layout>) => Promise<void>): Promise<void> => {
    const db = await live();
    await renewed(db);
    await guard.admit();
    try {
      await work(db);
    } catch (error) {
      await guard.failed();
      throw error;
    }
  };
  void guard.lay();

  return {
    campaign,
    load: async () => remembered(await loadAfter(0)),
    loadAfter: async (count) => remembered(await loadAfter(count)),
    copies: second === null ? 1 : 2,
    putBack: second?.putBack ?? 0,
    append: async (batch) => {
      if (isClosed) throw closed();
      admit(campaign, batch);
      if (batch.length === 0) return;
      await guarded(async (db) => {
        const written = await settled(write(db, batch), 'Saving', name);
        // Side by side: both begin where the strict commit ended, and the tick waits for both.
        await Promise.all([
          settled(readBack(db, batch, written, name), 'Reading back', name),
          second?.follow(),
        ]);
        remembered(batch);
      });
    },
    epoch: async () => {
      await live();
      return epoch;
    },
    note: async (key) => {
      const db = await live();
      return (await settled(db.get('notes', key), 'Reading a note', name)) ?? null;
    },
    setNote: async (key, text) => {
      await guarded(async (db) => {
        const tx = db.transaction('notes', 'readwrite', strict);
        await settled(Promise.all([tx.store.put(text, key), tx.done]), 'Saving a note', name);
      });
    },
    close: async () => {
      isClosed = true;
      connection.close();
    },
  };
}

/** A file whose silence is told as the database's is. */
function calm(file: LineFile, where: string): LineFile {
  return {
    end: () => settled(file.end(), 'Reading the second copy', where),
    page: (from) => settled(file.page(from), 'Reading the second copy', where),
    add: (lines, size) => settled(file.add(lines, size), 'Saving the second copy', where),
  };
}

/** A line that was damaged on the disk must not keep the rest from coming back. */
function isAdmitted(campaign: string, sealed: Sealed): boolean {
  try {
    admit(campaign, [sealed]);
    return true;
  } catch (error) {
    if (isTrouble(error)) return false;
    throw error;
  }
}

function openDatabase(name: string): Promise<IDBPDatabase<Layout>> {
  return openDB<Layout>(name, 1, {
    upgrade: (db) => {
      db.createObjectStore('entries').createIndex('hash', 'hash', { unique: true });
      db.createObjectStore('notes');
      db.createObjectStore('life');
    },
    // Another tab wants a newer layout: let go, or it waits for ever.
    blocking: (_from, _to, event) => {
      (event.target as IDBDatabase).close();
    },
  });
}

/** The epoch; a database that was just made gets its first. */
async function beginLife(db: IDBPDatabase<Layout>, campaign: string): Promise<string> {
  const tx = db.transaction('life', 'readwrite', strict);
  const held = await tx.store.get('campaign');
  let epoch = await tx.store.get('epoch');
  if (held === undefined || epoch === undefined) {
    epoch = randomId();
    await Promise.all([tx.store.put(campaign, 'campaign'), tx.store.put(epoch, 'epoch')]);
  }
  await tx.done;
  if (held !== undefined && held !== campaign) {
    db.close();
    throw trouble('refused', `The database holds campaign ${held}`, db.name, 'Open it under its own id.');
  }
  return epoch;
}

/** @returns the hashes of those that were not there before */
async function write(db: IDBPDatabase<Layout>, batch: readonly Sealed[]): Promise<ReadonlySet<string>> {
  const tx = db.transaction('entries', 'readwrite', strict);
  try {
    const byHash = tx.store.index('hash');
    // Keys are given here, inside the transaction: a key generator would leave gaps after an abort.
    const [last, ...known] = await Promise.all([
      tx.store.openKeyCursor(null, 'prev'),
      ...batch.map((sealed) => byHash.getKey(sealed.hash)),
    ]);
    let position = last?.key ?? 0;
    const taken = new Set<string>();
    const adding: Promise<number>[] = [];
    for (const [index, { hash, head, body, signature }] of batch.entries()) {
      if (known[index] !== undefined || taken.has(hash)) continue;
      taken.add(hash);
      position += 1;
      adding.push(tx.store.add({ hash, head, body, signature }, position));
    }
    await Promise.all([...adding, tx.done]);
    return taken;
  } catch (error) {
    // The reason of the abort is the first error; the transaction's own rejection says nothing more.
    tx.done.catch(() => undefined);
    throw error;
  }
}

/**
 * The tick rests on this: the entries are read in a transaction of their own, after the strict commit, and every byte
 * of what was written is compared.
 *
 * @param written hashes of those that this batch added; the others were there, perhaps with another signature
 */
async function readBack(
  db: IDBPDatabase<Layout>,
  batch: readonly Sealed[],
  written: ReadonlySet<string>,
  where: string,
): Promise<void> {
  const tx = db.transaction('entries', 'readonly');
  const byHash = tx.store.index('hash');
  const rows = await Promise.all(batch.map((sealed) => byHash.get(sealed.hash)));
  await tx.done;
  const seen = new Set<string>();
  for (const [index, sealed] of batch.entries()) {
    const isOwn = written.has(sealed.hash) && !seen.has(sealed.hash);
    seen.add(sealed.hash);
    if (!isAsWritten(rows[index], sealed, isOwn))
      throw trouble(
        'unknown fate',
        `Entry ${index + 1} of ${batch.length} did not read back as it was written`,
        where,
        'Write nothing more on this device: sync or export now.',
      );
  }
}

function isAsWritten(row: Sealed | undefined, sealed: Sealed, isOwn: boolean): boolean {
  if (row === undefined || row.hash !== sealed.hash || row.head !== sealed.head) return false;
  if (isOwn) return row.body === sealed.body && row.signature === sealed.signature;
  // A copy whose body is withheld adds nothing to the whole entry that may be there.
  return sealed.body === null || row.body === sealed.body;
}
