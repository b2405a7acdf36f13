import { compareEntries, type Entry } from '@firnbook/journal';
import { type Claim, readingView } from './claims.ts';
import { rootOf, type Thing, type ThreadState } from './thread.ts';
import type { ReadingView, ThingView } from './view.ts';

/** A thing with everything that was joined into it, itself first. */
export interface Group {
  readonly root: Thing;
  readonly members: readonly Thing[];
}

/** Every thing of a thread, joined ones together, in total order of the entries that logged them. */
export function groupsOf(state: ThreadState): readonly Group[] {
  const groups = new Map<Thing, Thing[]>();
  for (const thing of state.things.values()) {
    const root = rootOf(state, thing.id) ?? thing;
    const members = groups.get(root);
    if (members === undefined) groups.set(root, [thing]);
    else members.push(thing);
  }
  return [...groups]
    .map(([root, members]) => ({
      root,
      members: [root, ...members.filter((one) => one !== root).sort(byLog)],
    }))
    .sort((a, b) => byLog(a.root, b.root));
}

export const byLog = (a: Thing, b: Thing): number => compareEntries(a.logged, b.logged);

/** Claims of a group on one field. */
export function claimsOf(group: Group, field: string): readonly Claim[] {
  return group.members.flatMap((thing) => thing.claims.filter((claim) => claim.field === field));
}

/** What people see of a thing; `name` and `aliases` come from the part of the work it belongs to. */
export function thingView(group: Group, name: string, aliases: readonly string[] = []): ThingView {
  const { root, members } = group;
  const byField = new Map<string, Claim[]>();
  for (const field of root.kind.fields) byField.set(field.name, []);
  for (const claim of members.flatMap((thing) => thing.claims)) {
    const claims = byField.get(claim.field);
    if (claims === undefined) byField.set(claim.field, [claim]);
    else claims.push(claim);
  }
  const readings: [string, ReadingView][] = [];
  for (const [field, claims] of byField) {
    const view = readingView(claims);
    if (view !== null) readings.push([field, view]);
  }
  const absorbed = members.slice(1).map((thing) => thing.id);
  const { header } = root.logged;
  return {
    id: root.id,
    kind: root.kind.kind,
    name,
    aliases: [...new Set(aliases)].filter((alias) => alias !== name),
    by: header.by,
    at: header.observedAt,
    device: header.device,
    readings: Object.fromEntries(readings),
    withdrawn: withdrawnOf(members),
    entries: entriesOf(members),
    ...(absorbed.length === 0 ? {} : { absorbed }),
  };
}

/** Withdrawn once all that was joined in it is: a withdrawal told before the join was meant for the other one. */
function withdrawnOf(members: readonly Thing[]): ThingView['withdrawn'] {
  if (members.some((thing) => thing.withdrawals.length === 0)) return null;
  const { header } = last(members.flatMap((thing) => thing.withdrawals));
  return { reason: header.reason ?? '', by: header.by, at: header.observedAt };
}

const last = (entries: readonly Entry[]): Entry => [...entries].sort(compareEntries).at(-1)!;

function entriesOf(members: readonly Thing[]): readonly string[] {
  const entries = [...new Set(members.flatMap((thing) => thing.touchedBy))].sort(compareEntries);
  return entries.map((entry) => entry.header.id);
}

/** The number that a field says; null where it says none. */
export const numberIn = (view: ThingView, field: string): number | null =>
  Object.hasOwn(view.readings, field) ? view.readings[field]!.value : null;

/** The word or text that a field says; empty where it says none. */
export const textIn = (view: ThingView, field: string): string =>
  Object.hasOwn(view.readings, field) ? view.readings[field]!.text : '';

/** Every number that a field ever said, struck ones too: for aliases. */
export function numbersEver(group: Group, field: string): readonly (number | null)[] {
  const numbers = claimsOf(group, field).map((claim) => claim.parsed?.value ?? null);
  return [...new Set(numbers)].filter((number) => number !== null);
}

export function wordsEver(group: Group, field: string): readonly string[] {
  return [...new Set(claimsOf(group, field).flatMap((claim) => claim.parsed?.word ?? []))];
}
