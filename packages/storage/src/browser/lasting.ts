import type { DBSchema, IDBPDatabase } from 'idb';

/**
 * What an opening writes itself, more or less. Told to the guard's `admit`, it makes the guard try a piece as large as
 * databases tidy up in, and not only an entry.
 */
export const reopeningBytes = 2 ** 14;

/** A database that outlives what the browser does to its connections. */
export interface Lasting<Layout extends DBSchema> {
  /** The open database. @throws whatever the opening throws, where the browser closed it and it does not open again */
  now(): Promise<IDBPDatabase<Layout>>;
  close(): void;
}

/**
 * A browser closes a database by itself on a full disk, or when its data are cleared. It is opened again by whoever
 * needs it next.
 *
 * @param reopen looks for room first: on a full disk, opening alone can cost the database
 */
export function lasting<Layout extends DBSchema>(
  first: IDBPDatabase<Layout>,
  reopen: () => Promise<IDBPDatabase<Layout>>,
): Lasting<Layout> {
  const gone = new WeakSet<object>();
  let db = first;
  let coming: Promise<void> | null = null;

  const take = (next: IDBPDatabase<Layout>) => {
    next.addEventListener('close', () => gone.add(next));
    db = next;
  };
  take(first);

  return {
    async now() {
      if (gone.has(db)) {
        coming ??= reopen()
          .then(take)
          .finally(() => {
            coming = null;
          });
        await coming;
      }
      return db;
    },
    close: () => db.close(),
  };
}
