import { compareEntries, type Entry } from '@firnbook/journal';
import { type Claim, onlyReading, readingView } from './claims.ts';
import { rootOf, type Thing, type ThreadState } from './thread.ts';
import type { ReadingView, ThingView } from './view.ts';

/** A thing with everything that was joined into it, itself first. */
export interface Group {
  readonly root: Thing;
  readonly members: readonly Thing[];
}

/** Every thing of a thread, joined ones together, in total order of the entries that logged them. */
export function groupsOf(state: ThreadState): readonly Group[] {
  const groups: Group[] = [];
  const joined = new Map<Thing, Thing[]>();
  // Things were taken in total order, and logging one waits for nothing.
  for (const thing of state.things.values()) {
    if (thing.joinedInto === null) continue;
    const root = rootOf(state, thing.id) ?? thing;
    const members = joined.get(root);
    if (members === undefined) joined.set(root, [root, thing]);
    else members.push(thing);
  }
  for (const root of state.things.values())
    if (root.joinedInto === null) groups.push({ root, members: joined.get(root) ?? [root] });
  return groups;
}

/** How a thing is called, now and before. */
export interface Naming {
  readonly name: string;
  /** Old names; may hold the present one and doubles. */
  readonly aliases?: readonly string[];
}

/** What people see of a thing; how it is called is a matter of the part of the work it belongs to. */
export function thingView(group: Group, naming: (readings: ThingView['readings']) => Naming): ThingView {
  const { root, members } = group;
  const readings = readingsOf(group);
  const { name, aliases = none } = naming(readings);
  const { header } = root.logged;
  const view = {
    id: root.id,
    kind: root.kind.kind,
    name,
    aliases: aliases.length === 0 ? aliases : [...new Set(aliases)].filter((alias) => alias !== name),
    by: header.by,
    at: header.observedAt,
    device: header.device,
    readings,
    withdrawn: withdrawnOf(members),
    entries: entriesOf(members),
  };
  return members.length === 1 ? view : { ...view, absorbed: members.slice(1).map((thing) => thing.id) };
}

/** One for all: a season has hundreds of thousands of empty lists. */
const none: readonly never[] = [];

/** In the order of the kind's table, then what this version does not know. */
function readingsOf(group: Group): ThingView['readings'] {
  const { root, members } = group;
  const all = members.length === 1 ? root.claims : members.flatMap((thing) => thing.claims);
  const readings: Record<string, ReadingView> = {};
  let left = all.length;
  for (const field of root.kind.fields) left -= put(readings, all, field.name);
  if (left > 0) for (const { field } of all) if (!Object.hasOwn(readings, field)) put(readings, all, field);
  return readings;
}

/** How many claims the field has; its view is put in where there is one. */
function put(readings: Record<string, ReadingView>, all: readonly Claim[], field: string): number {
  let count = 0;
  let first: Claim | undefined;
  for (const claim of all) {
    if (claim.field !== field) continue;
    first ??= claim;
    count++;
  }
  if (first === undefined) return 0;
  // Nearly every reading was said once.
  const value = count === 1 ? onlyReading(first) : readingView(all.filter((claim) => claim.field === field));
  // Defined, not assigned: a field may be called "__proto__".
  if (field === '__proto__') Object.defineProperty(readings, field, { value, enumerable: true });
  else readings[field] = value;
  return count;
}

/** Withdrawn once all that was joined in it is: a withdrawal told before the join was meant for the other one. */
function withdrawnOf(members: readonly Thing[]): ThingView['withdrawn'] {
  if (members.some((thing) => thing.withdrawals.length === 0)) return null;
  const last = members
    .flatMap((thing) => thing.withdrawals)
    .sort(compareEntries)
    .at(-1)!;
  return { reason: last.header.reason ?? '', by: last.header.by, at: last.header.observedAt };
}

function entriesOf(members: readonly Thing[]): readonly string[] {
  const all = members.length === 1 ? members[0]!.touchedBy : members.flatMap((thing) => thing.touchedBy);
  if (all.length === 1) return [all[0]!.header.id];
  const ordered: readonly Entry[] = [...new Set(all)].sort(compareEntries);
  return ordered.map((entry) => entry.header.id);
}

/** The number that a field says; null where it says none. */
export const numberIn = (view: Pick<ThingView, 'readings'>, field: string): number | null =>
  Object.hasOwn(view.readings, field) ? view.readings[field]!.value : null;

/** The word or text that a field says; empty where it says none. */
export const textIn = (view: Pick<ThingView, 'readings'>, field: string): string =>
  Object.hasOwn(view.readings, field) ? view.readings[field]!.text : '';

/** Every number that a field ever said, struck ones too: for aliases. */
export function numbersEver(group: Group, field: string): readonly number[] {
  return everSaid(group, field, (claim) => claim.parsed?.value ?? null);
}

/** Every word, text or id that a field ever said. */
export function wordsEver(group: Group, field: string): readonly string[] {
  return everSaid(group, field, (claim) => claim.parsed?.word ?? null);
}

function everSaid<T>({ members }: Group, field: string, of: (claim: Claim) => T | null): readonly T[] {
  const said: T[] = [];
  for (const { claims } of members)
    for (const claim of claims) {
      if (claim.field !== field) continue;
      const one = of(claim);
      if (one !== null && !said.includes(one)) said.push(one);
    }
  return said;
}
