/// <reference lib="dom" />

/**
 * Runs in the page: leaves in `ticked` how long the last answer took, in the page's own milliseconds, from the tap to
 * the frame that shows it with its tick on this tablet or further.
 */
export function watchTicks(): void {
  const own = globalThis as unknown as { ticked: number | null };
  let tapped = 0;
  document.addEventListener(
    'click',
    (event) => {
      if ((event.target as Element).closest('[data-choice="core"]') !== null) tapped = event.timeStamp;
    },
    true,
  );
  new MutationObserver(() => {
    const rest = document.querySelector<HTMLElement>('.answer .saved [data-rest]')?.dataset.rest;
    if (tapped === 0 || rest === undefined || rest === 'saving') return;
    const of = tapped;
    tapped = 0;
    // A message that is posted in a frame is heard when that frame is done.
    requestAnimationFrame(() => {
      const channel = new MessageChannel();
      channel.port1.onmessage = () => {
        own.ticked = performance.now() - of;
      };
      channel.port2.postMessage(null);
    });
  }).observe(document.body, { childList: true, subtree: true, attributes: true });
}

/** Runs in the page: null until the tick is shown. */
export const whatTicked = (): number | null => (globalThis as unknown as { ticked: number | null }).ticked;

/** Runs in the page: milliseconds of so many strict commits of one row, one after the other, in a database of its own. */
export async function bareCommits(count: number): Promise<readonly number[]> {
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open('bare', 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore('rows');
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  const times: number[] = [];
  for (let row = 0; row < count; row += 1) {
    const start = performance.now();
    const tx = db.transaction('rows', 'readwrite', { durability: 'strict' });
    tx.objectStore('rows').put('x'.repeat(700), row);
    await new Promise((resolve, reject) => {
      tx.oncomplete = resolve;
      tx.onabort = () => reject(tx.error);
    });
    times.push(performance.now() - start);
  }
  db.close();
  return times;
}
