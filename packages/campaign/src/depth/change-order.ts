import type { Change } from '@firnbook/science/depth-scales';
import { thingsOf } from '../find.ts';
import type { HoleView, ThingView } from '../view.ts';
import { bookField } from './moved.ts';

/**
 * The order in which the changes between two states of a hole's readings were told to the book: that of the entries
 * that say them (ids are in order of time, UUIDv7). What no entry of this hole says, an assumption or the solver, comes
 * first.
 *
 * @param hole the later of the two states
 */
export function changeOrder(hole: HoleView): (change: Change) => number {
  const things = new Map(thingsOf(hole).map((thing) => [thing.id, thing]));
  const sorted = [...new Set(thingsOf(hole).flatMap((thing) => thing.entries))].sort();
  const place = new Map(sorted.map((entry, i) => [entry, i + 1]));
  return (change) => {
    if (!('which' in change)) return 0;
    const thing = things.get(change.which);
    return thing === undefined ? 0 : (place.get(entryOf(change, thing)) ?? 0);
  };
}

function entryOf(change: Extract<Change, { readonly which: string }>, thing: ThingView): string {
  if (change.kind === 'added') return thing.id;
  const said = change.kind === 'corrected' ? thing.readings[bookField(change.field)]?.entry : undefined;
  return said ?? thing.entries.at(-1) ?? thing.id;
}
