import { kinds } from './kinds.ts';
import { keptView, readingsOf, textIn } from './thing-view.ts';
import { rootsOf, type ThreadState } from './thread.ts';
import type { OtherThings, ThingView } from './view.ts';

/**
 * The things of a thread whose part of the work makes no view of its own: each kind with `calledBy`, or without any
 * name, that is told there.
 *
 * @param nameOf how another thing is called, by its id; undefined where it is not known here
 */
export function otherThings(
  state: ThreadState,
  under: 'campaign' | 'hole',
  own: ReadonlySet<string>,
  nameOf: (id: string) => string | undefined,
): OtherThings {
  const others: Record<string, readonly ThingView[]> = {};
  const named = new Map<string, string>();
  const called = (id: string): string => nameOf(id) ?? named.get(id) ?? '?';
  for (const kind of kinds) {
    if (kind.under !== under || own.has(kind.kind)) continue;
    const roots = rootsOf(state, kind);
    if (roots.length === 0) continue;
    const field = kind.fields.find((one) => one.name === kind.calledBy);
    others[kind.kind] = roots.map((thing) => {
      const text = field === undefined ? '' : textIn({ readings: readingsOf(thing) }, field.name);
      const name = field?.quantity === 'thing' && text !== '' ? called(text) : text;
      // Whatever names one that was joined into it means this one.
      for (const { id } of [thing, ...thing.absorbed]) named.set(id, name);
      return keptView(thing, name);
    });
  }
  return others;
}

/** All of them in one list, in the order of the kinds. */
export const allOf = (others: OtherThings): readonly ThingView[] => Object.values(others).flat();
