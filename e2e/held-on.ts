import type { Page } from 'playwright-core';

interface Row {
  readonly hash: string;
  readonly head: string;
}

/** Entries in the tablet's own database, read past everything of ours. */
export function heldOn(page: Page, campaign: string): Promise<readonly Row[]> {
  return page.evaluate(
    (name) =>
      new Promise<Row[]>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction('entries').objectStore('entries').getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = () => {
            opening.result.close();
            resolve((all.result as Row[]).map(({ hash, head }) => ({ hash, head })));
          };
        };
      }),
    `firnbook-${campaign}`,
  );
}
