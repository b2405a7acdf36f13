import type { BookHandle, Rest } from '../device/book.ts';
import { RestTick } from './ticks.tsx';

/** Where a thing's entries rest, told by the one that is least safe. */
export function restOf(book: BookHandle, entries: readonly string[]): Rest {
  const rests = entries.map((entry) => book.safety.of(entry));
  if (rests.includes('saving')) return 'saving';
  if (rests.includes('once')) return 'once';
  if (rests.includes('tablet')) return 'tablet';
  return rests.includes('camp') ? 'camp' : 'second';
}

export function Saved({ book, entries }: { readonly book: BookHandle; readonly entries: readonly string[] }) {
  return (
    <p className="saved">
      <RestTick rest={restOf(book, entries)} />
    </p>
  );
}
