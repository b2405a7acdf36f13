import { nameSentence } from './frozen-names.ts';
import { fieldOf, kindOf } from './kinds.ts';
import { fieldText, kindText, wordText } from './texts/called.ts';
import { sentence, type Value } from './texts/sentence.ts';
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
      const called = { name: nameIn(thing), field: fieldText(thing.kind, reading.field) };
      const texts = [...reading.against, reading].map((one) =>
        field?.quantity === 'word' ? wordText(thing.kind, field.name, one.text) : one.text,
      );
      conflicts.push({
        key: `readings:${thing.id}:${reading.field}`,
        kind: 'two readings',
        // Another thing is named by an id that says nothing to people.
        says:
          field?.quantity === 'thing'
            ? sentence('conflict.readings.of.things', called)
            : texts.length === 2
              ? sentence('conflict.readings.two', { ...called, first: texts[0]!, second: texts[1]! })
              : sentence('conflict.readings.more', { ...called, count: texts.length, texts }),
        things: [thing.id],
        field: reading.field,
      });
    }
  }
  return conflicts;
}

/** Most names are their own words. */
function nameIn(thing: ThingView): Value {
  const said = nameSentence(thing);
  return said.key === 'as.it.is' ? thing.name : said;
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
      says: sentence(same.length === 2 ? 'conflict.name.two' : 'conflict.name.more', {
        count: same.length,
        things: kindText(same[0]!.kind, same.length),
        name,
      }),
      things: same.map((thing) => thing.id),
      field: kindOf(same[0]!.kind)?.fields.find((field) => field.quantity === 'count')?.name ?? '',
    }))
    .map(({ field, ...conflict }) => (field === '' ? conflict : { ...conflict, field }));
}
