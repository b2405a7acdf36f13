import { type Book, type Command, type Context, createBook, type Decision } from '@firnbook/campaign';
import { type Draft, type Entry, FIRST_STAMP, hashText, hear, seal, tick } from '@firnbook/journal';

/** A book that is thrown away: what commands come to, one after the other, before any of it is written. */
export interface Scratch {
  readonly book: Book;
  /** Decides and, where taken, goes on as if it had been written. */
  take(command: Command, context: Context): Decision;
}

/** @param entries what the campaign has so far */
export const openScratch = (entries: readonly Entry[]): Scratch => {
  const book = createBook();
  book.add(entries);
  const campaign = entries[0]?.header.campaign ?? 'none';
  let stamp = entries.reduce((latest, { header }) => hear(latest, header.stamp), FIRST_STAMP);
  let previous: string | null = null;
  let sequence = 0;
  const write = (draft: Draft): Entry => {
    stamp = tick(stamp, 0);
    sequence += 1;
    const salt = hashText(draft.id).slice(0, 32);
    const entry = seal(draft, { campaign, device: 'scratch', sequence, previous, stamp, salt });
    previous = entry.hash;
    return entry;
  };
  return {
    book,
    take: (command, context) => {
      const decision = book.decide(command, context);
      if (decision.ok) book.add(decision.drafts.map(write));
      return decision;
    },
  };
};
