import { createBook } from '@firnbook/campaign';
import type { Entry, Replica } from '@firnbook/journal';

export interface Title {
  readonly name: string;
  readonly invented: boolean;
}

/**
 * What the list of campaigns calls it, corrections included; the id until its first entry has arrived.
 * Holes are left out: the server doesn't need them, and a season of them takes room and time.
 */
export function followTitle(replica: Replica): () => Title {
  const book = createBook();
  const take = (entries: readonly Entry[]) =>
    void book.add(entries.filter((entry) => entry.body?.hole === undefined));
  take(replica.ledger.entries());
  replica.subscribe(take);
  return () => {
    const { name, invented } = book.view();
    return { name: name === '' ? replica.campaign : name, invented };
  };
}
