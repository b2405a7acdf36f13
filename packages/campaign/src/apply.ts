import type { Entry, Json } from '@firnbook/journal';
import type { Claim } from './claims.ts';
import type { Kind } from './kind.ts';
import { fieldOf, kindLoggedBy } from './kinds.ts';
import { readReading } from './reading.ts';
import { rootOf, type Thing, type ThreadState } from './thread.ts';

/** Entries that say something about things already there; the newest version this build reads. */
export const CORRECTED = 'reading.corrected';
export const WITHDRAWN = 'thing.withdrawn';
export const JOINED = 'things.joined';
const links: ReadonlySet<string> = new Set([CORRECTED, WITHDRAWN, JOINED]);
export const LINK_VERSION = 1;

/**
 * Take one entry into the state, in place. Total: whatever another device wrote, it never throws; what cannot be
 * read is counted and stays in the journal (J5). An entry that points at something not here yet waits for it.
 */
export function apply(state: ThreadState, entry: Entry): void {
  const due = [entry];
  for (let next = due.shift(); next !== undefined; next = due.shift()) {
    const missing = missingFor(state, next);
    if (missing !== null) {
      const queue = state.waiting.get(missing);
      if (queue === undefined) state.waiting.set(missing, [next]);
      else queue.push(next);
      continue;
    }
    take(state, next);
    state.seen.add(next.header.id);
    const released = state.waiting.get(next.header.id);
    if (released === undefined) continue;
    state.waiting.delete(next.header.id);
    due.push(...released);
  }
}

/** The first id that the entry points at and that is not here. */
function missingFor(state: ThreadState, entry: Entry): string | null {
  const { kind, version, corrects } = entry.header;
  if (!links.has(kind) || version > LINK_VERSION || entry.body === null) return null;
  const names = kind === JOINED ? ['into', 'from'] : ['thing'];
  for (const name of names) {
    const id = entry.body[name];
    if (typeof id === 'string' && !state.things.has(id)) return id;
  }
  return corrects?.find((id) => !state.seen.has(id)) ?? null;
}

function take(state: ThreadState, entry: Entry): void {
  const { kind: word, version } = entry.header;
  const kind = kindLoggedBy(word);
  const newest = kind?.version ?? (links.has(word) ? LINK_VERSION : 0);
  const isTaken =
    version <= newest && entry.body !== null && (kind ? log(state, entry, kind) : link(state, entry));
  if (!isTaken) state.notUnderstood.add(entry.hash);
}

function log(state: ThreadState, entry: Entry, kind: Kind): boolean {
  const { id } = entry.header;
  // An id is taken once: should a device ever use one twice, the first in total order keeps it.
  if (state.things.has(id)) return false;
  const thing: Thing = {
    id,
    kind,
    logged: entry,
    claims: [],
    withdrawals: [],
    joinedInto: null,
    touchedBy: [entry],
  };
  state.things.set(id, thing);
  const parent = entry.body?.run;
  const isWhole = claim(thing, entry, entry.body?.readings);
  if (typeof parent !== 'string' || fieldOf(kind, 'run') === undefined) return isWhole;
  thing.claims.push(claimOf(thing, 'run', parent, entry));
  return isWhole;
}

function link(state: ThreadState, entry: Entry): boolean {
  const body = entry.body;
  if (body === null) return false;
  const { thing: id, into, from, readings } = body;
  if (entry.header.kind === JOINED) {
    if (typeof into !== 'string' || typeof from !== 'string') return false;
    const target = rootOf(state, into);
    const source = rootOf(state, from);
    if (target === undefined || source === undefined || target.kind !== source.kind) return false;
    // Two devices may join the same things at once, even the other way round: the first in total order decides.
    if (target !== source) source.joinedInto = target.id;
    target.touchedBy.push(entry);
    return readings === undefined || claim(target, entry, readings);
  }
  const thing = typeof id === 'string' ? state.things.get(id) : undefined;
  if (thing === undefined) return false;
  thing.touchedBy.push(entry);
  if (entry.header.kind === CORRECTED) return claim(thing, entry, readings);
  thing.withdrawals.push(entry);
  return true;
}

/** Take the readings of an entry as claims. False where some of it cannot be understood; the rest is taken. */
function claim(thing: Thing, entry: Entry, readings: Json | undefined): boolean {
  if (readings === null || typeof readings !== 'object' || Array.isArray(readings)) return false;
  let isWhole = true;
  for (const [field, text] of Object.entries(readings)) {
    if (typeof text !== 'string') {
      isWhole = false;
      continue;
    }
    const one = claimOf(thing, field, text, entry);
    if (one.parsed === null) isWhole = false;
    thing.claims.push(one);
  }
  return isWhole;
}

function claimOf(thing: Thing, name: string, text: string, source: Entry): Claim {
  const field = fieldOf(thing.kind, name);
  const read = field === undefined ? null : readReading(text, field);
  return { field: name, text, parsed: read?.ok ? read.reading : null, source };
}
