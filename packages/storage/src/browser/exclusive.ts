import { openDB } from 'idb';

/**
 * Runs `work` while no other tab of this origin runs work under the same name: read the chain's end, seal,
 * append, as one step. The lock ends with the tab, however that ends.
 *
 * Web Locks exist in secure contexts only. On plain http a read-write transaction stands in: IndexedDB lets one
 * at a time have an object store, and a tab that dies takes its transaction with it. It is kept open by reading
 * again and again, so `work` should be short.
 */
export async function exclusive<T>(name: string, work: () => Promise<T>): Promise<T> {
  const locks = typeof navigator === 'undefined' ? undefined : navigator.locks;
  // The cast: the browser's own type wraps the promise once more than `await` leaves.
  if (locks !== undefined) return (await locks.request(`firnbook-${name}`, work)) as T;
  return insideTransaction(name, work);
}

async function insideTransaction<T>(name: string, work: () => Promise<T>): Promise<T> {
  const db = await openDB(`firnbook-lock-${name}`, 1, {
    upgrade: (made) => void made.createObjectStore('held'),
  });
  try {
    const tx = db.transaction('held', 'readwrite');
    await tx.store.get('turn');
    let over = false;
    const outcome = work().finally(() => {
      over = true;
    });
    // A failure is told by `await outcome` below; until then the loop holds the transaction.
    outcome.catch(() => undefined);
    while (!over) await tx.store.get('turn');
    await tx.done;
    return await outcome;
  } finally {
    db.close();
  }
}
