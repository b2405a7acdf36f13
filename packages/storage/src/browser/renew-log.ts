import { wrap } from 'idb';
import { settled } from './settled.ts';

/** More than LevelDB gathers in memory (4 MB) before it writes a table and begins a new log. */
const rows = 75;
/** Written in steps: a slow disk takes each of them well before silence counts as a failure. */
const together = 15;
/** Chromium keeps larger values in files of their own. */
const characters = 60_000;
const prefix = 'renewal ';

/** Room that this takes for a moment: the log that fills up, and the table. */
export const renewalBytes = 6 * 2 ** 20;

/**
 * Makes Chromium begin a new log of this browser's databases. A kill may have left half a record at the end of the log;
 * the browser writes on behind it and drops every database at the start after that (ARCHITECTURE.md, "What a browser
 * can still lose"). Once so much is written, what the log holds goes into a table and the log is taken away. What is
 * written for it is taken away again; other browsers are only kept busy for a moment.
 *
 * @param database one with a store for notes
 */
export async function renewLog(database: IDBDatabase, where: string): Promise<void> {
  const db = wrap(database);
  const filler = ' '.repeat(characters);
  for (let first = 0; first < rows; first += together) {
    const tx = db.transaction('notes', 'readwrite');
    const puts = Array.from({ length: together }, (_, row) =>
      tx.store.put(filler, `${prefix}${first + row}`),
    );
    await settled(Promise.all([...puts, tx.done]), 'Renewing the log', where);
  }
  // The write that finds memory full is the one that begins the log.
  const tx = db.transaction('notes', 'readwrite', { durability: 'strict' });
  const away = tx.store.delete(IDBKeyRange.bound(prefix, `${prefix}\uffff`));
  await settled(Promise.all([away, tx.done]), 'Renewing the log', where);
}
