import { compareEntries, type Entry } from '@firnbook/journal';
import { readingView, type Said, type Sameness } from './claims.ts';
import { rootAmong, type Thing } from './thread.ts';
import type { ReadingView, ThingView } from './view.ts';

/** How a thing is called, now and before. */
export interface Naming {
  readonly name: string;
  /** Old names; may hold the present one and doubles. */
  readonly aliases?: readonly string[];
}

/**
 * What people see of a thing with everything that was joined into it. Made anew; whoever shows it keeps it in
 * `thing.view`.
 *
 * @param readings as `readingsOf` gives them: how a thing is called is a matter of the part of the work it belongs
 *   to, and hangs on them
 */
export function thingView(thing: Thing, readings: ThingView['readings'], naming: Naming): ThingView {
  const { name, aliases = none } = naming;
  const { header } = thing.logged;
  const view = {
    id: thing.id,
    kind: thing.kind.kind,
    name,
    aliases: aliases.length === 0 ? none : [...new Set(aliases)].filter((alias) => alias !== name),
    by: header.by,
    at: header.observedAt,
    device: header.device,
    readings,
    withdrawn: withdrawnOf(thing),
    entries: entriesOf(thing),
  };
  return thing.absorbed.length === 0 ? view : { ...view, absorbed: thing.absorbed.map((one) => one.id) };
}

/** The view kept in the thing where it is still right, else a new one. For things whose name alone is made elsewhere. */
export function keptView(thing: Thing, name: string): ThingView {
  if (thing.view?.name !== name) thing.view = thingView(thing, readingsOf(thing), { name });
  return thing.view;
}

/** One for all: a season has hundreds of thousands of empty lists. */
const none: readonly never[] = [];

/** The thing with everything that was joined into it, itself first. */
const membersOf = (thing: Thing): readonly Thing[] => [thing, ...thing.absorbed];

const allSaid = (thing: Thing): readonly Said[] =>
  thing.absorbed.length === 0 ? thing.said : membersOf(thing).flatMap((one) => one.said);

/** In the order of the kind's table, then what this version does not know. */
export function readingsOf(thing: Thing): ThingView['readings'] {
  const all = allSaid(thing);
  // Nearly everything was said once and never corrected; apply.ts made it in this order.
  if (all.length === 1) return all[0]!.readings;
  const readings: Record<string, ReadingView> = {};
  const isOne = (one: string, other: string): boolean => {
    const root = rootAmong(thing.among, one);
    return root !== undefined && root === rootAmong(thing.among, other);
  };
  for (const field of thing.kind.fields) put(readings, all, field.name, { field, isOne });
  for (const one of all)
    for (const name of Object.keys(one.readings)) put(readings, all, name, { field: undefined, isOne });
  return readings;
}

function put(
  readings: Record<string, ReadingView>,
  all: readonly Said[],
  name: string,
  same: Sameness,
): void {
  if (Object.hasOwn(readings, name)) return;
  const saying = all.filter((one) => Object.hasOwn(one.readings, name));
  if (saying.length === 0) return;
  const view = saying.length === 1 ? saying[0]!.readings[name]! : readingView(name, saying, same);
  setReading(readings, name, view);
}

/** Defined, not assigned: a field may be called "__proto__". */
export function setReading(readings: Record<string, ReadingView>, field: string, value: ReadingView): void {
  if (field === '__proto__')
    Object.defineProperty(readings, field, { value, enumerable: true, configurable: true, writable: true });
  else readings[field] = value;
}

/** Withdrawn once all that was joined in it is: a withdrawal told before the join was meant for the other one. */
function withdrawnOf(thing: Thing): ThingView['withdrawn'] {
  if (thing.withdrawals.length === 0) return null;
  const members = membersOf(thing);
  if (members.some((one) => one.withdrawals.length === 0)) return null;
  const all = members.flatMap((one) => one.withdrawals).sort(compareEntries);
  const { reason, by, observedAt } = all.at(-1)!.header;
  return { reason: reason ?? '', by, at: observedAt, entries: all.map((one) => one.header.id) };
}

/** Every entry that touched it, oldest first. */
export function entriesOf(thing: Thing): readonly string[] {
  if (thing.touchedBy.length === 0 && thing.absorbed.length === 0) return [thing.id];
  const all: readonly Entry[] = membersOf(thing).flatMap((one) => [one.logged, ...one.touchedBy]);
  return [...new Set(all)].sort(compareEntries).map((entry) => entry.header.id);
}

/** How things are called, by id, also by the ids of what was joined. */
export const namesOf = (things: readonly ThingView[]): Map<string, string> =>
  new Map(
    things.flatMap(({ id, absorbed = none, name }) => [id, ...absorbed].map((one) => [one, name] as const)),
  );

/** The number that a field says; null where it says none. */
export const numberIn = (view: Pick<ThingView, 'readings'>, field: string): number | null =>
  Object.hasOwn(view.readings, field) ? view.readings[field]!.value : null;

/** The word or text that a field says; empty where it says none. */
export const textIn = (view: Pick<ThingView, 'readings'>, field: string): string =>
  Object.hasOwn(view.readings, field) ? view.readings[field]!.text : '';

/** Every number that a field ever said, struck ones too: for aliases. */
export const numbersEver = (thing: Thing, field: string): readonly number[] =>
  everSaid(thing, field, ({ value }) => value);

/** Every word, text or id that a field ever said. */
export const wordsEver = (thing: Thing, field: string): readonly string[] =>
  everSaid(thing, field, ({ value, text }) => (value === null ? text : null));

function everSaid<T>(thing: Thing, field: string, of: (reading: ReadingView) => T | null): readonly T[] {
  let said: readonly T[] = none;
  for (const { readings, unread } of allSaid(thing)) {
    if (!Object.hasOwn(readings, field) || unread.includes(field)) continue;
    const one = of(readings[field]!);
    if (one !== null && !said.includes(one)) said = said.length === 0 ? [one] : [...said, one];
  }
  return said;
}
