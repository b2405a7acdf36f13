import { fieldOf, kindOf } from './kinds.ts';
import type { ConflictView, ThingView } from './view.ts';

/** Fields whose standing claims contradict each other; withdrawn things are past contradicting. */
export function readingConflicts(things: readonly ThingView[]): readonly ConflictView[] {
  const conflicts: ConflictView[] = [];
  for (const thing of things) {
    if (thing.withdrawn !== null) continue;
    for (const name in thing.readings) {
      const reading = thing.readings[name]!;
      if (reading.against.length === 0) continue;
      const kind = kindOf(thing.kind);
      const field = kind && fieldOf(kind, reading.field);
      // Another thing is named by an id that says nothing to people.
      const said =
        field?.quantity === 'thing'
          ? ''
          : `: ${[...reading.against, reading].map((one) => one.text).join(' or ')}`;
      conflicts.push({
        key: `readings:${thing.id}:${reading.field}`,
        kind: 'two readings',
        says: `${thing.name} has ${counted(reading.against.length + 1)} readings of its ${field?.label ?? reading.field}${said}.`,
        things: [thing.id],
        field: reading.field,
      });
    }
  }
  return conflicts;
}

/**
 * Different things that bear one name; withdrawn ones don't count.
 *
 * @param place where the name has to be unique, for the key: "runs", "pieces of <run>"
 */
export function nameConflicts(things: readonly ThingView[], place: string): readonly ConflictView[] {
  if (things.length < 2) return [];
  if (new Set(things.map((thing) => thing.name)).size === things.length) return [];
  const byName = new Map<string, ThingView[]>();
  for (const thing of things) {
    if (thing.withdrawn !== null) continue;
    const same = byName.get(thing.name);
    if (same === undefined) byName.set(thing.name, [thing]);
    else same.push(thing);
  }
  return [...byName]
    .filter(([, same]) => same.length > 1)
    .map(([name, same]) => ({
      key: `name:${place}:${name}`,
      kind: 'same name' as const,
      says: `${capital(counted(same.length))} ${kindOf(same[0]!.kind)?.plural ?? 'things'} are called ${name}.`,
      things: same.map((thing) => thing.id),
      field: kindOf(same[0]!.kind)?.fields.find((field) => field.quantity === 'count')?.name ?? '',
    }))
    .map(({ field, ...conflict }) => (field === '' ? conflict : { ...conflict, field }));
}

const counted = (count: number): string => ['no', 'one', 'two', 'three', 'four'][count] ?? String(count);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
