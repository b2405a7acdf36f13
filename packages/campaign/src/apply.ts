import type { Entry, Json } from '@firnbook/journal';
import type { Claim } from './claims.ts';
import type { Kind } from './kind.ts';
import { fieldOf, kindLoggedBy } from './kinds.ts';
import { readReading } from './reading.ts';
import { holeKind } from './setup/schema.ts';
import { CAMPAIGN_THREAD, holeThread, rootOf, type Thing, type ThreadState } from './thread.ts';

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
export function apply(state: ThreadState, entry: Entry, thread: string): void {
  const due = [entry];
  for (let next = due.shift(); next !== undefined; next = due.shift()) {
    const missing = missingFor(state, next);
    if (missing !== null) {
      const queue = state.waiting.get(missing);
      if (queue === undefined) state.waiting.set(missing, [next]);
      else queue.push(next);
      continue;
    }
    take(state, next, thread);
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

function take(state: ThreadState, entry: Entry, thread: string): void {
  const { kind: word, version } = entry.header;
  const kind = kindLoggedBy(word);
  const newest = kind?.version ?? (links.has(word) ? LINK_VERSION : 0);
  const isTaken =
    version <= newest &&
    entry.body !== null &&
    (kind ? isAtHome(kind, entry, thread) && log(state, entry, kind) : link(state, entry));
  if (!isTaken) state.notUnderstood.add(entry.hash);
}

/** A kind told in a thread that is not its own (a person in a hole, a hole in another hole) means nothing there. */
function isAtHome(kind: Kind, entry: Entry, thread: string): boolean {
  if (kind === holeKind) return thread === holeThread(entry.header.id);
  return (kind.under === 'campaign') === (thread === CAMPAIGN_THREAD);
}

function log(state: ThreadState, entry: Entry, kind: Kind): boolean {
  const { id } = entry.header;
  // An id is taken once: should a device ever use one twice, the first in total order keeps it.
  if (state.things.has(id)) return false;
  const { claims, isWhole } = claimsOf(kind, entry, entry.body?.readings);
  const parent = entry.body?.run;
  const hasParent = typeof parent === 'string' && fieldOf(kind, 'run') !== undefined;
  state.things.set(id, {
    id,
    kind,
    logged: entry,
    claims: hasParent ? [...claims, claimOf(kind, 'run', parent, entry)] : claims,
    withdrawals: [],
    joinedInto: null,
    touchedBy: [entry],
  });
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

function claim(thing: Thing, entry: Entry, readings: Json | undefined): boolean {
  const { claims, isWhole } = claimsOf(thing.kind, entry, readings);
  thing.claims = [...thing.claims, ...claims];
  return isWhole;
}

/** An entry's readings as claims; not whole where some of it cannot be understood, and then the rest is taken. */
function claimsOf(
  kind: Kind,
  entry: Entry,
  readings: Json | undefined,
): { readonly claims: readonly Claim[]; readonly isWhole: boolean } {
  if (readings === undefined || readings === null || typeof readings !== 'object' || Array.isArray(readings))
    return { claims: [], isWhole: false };
  const said = Object.entries(readings).filter(
    (pair): pair is [string, string] => typeof pair[1] === 'string',
  );
  const claims = said.map(([field, text]) => claimOf(kind, field, text, entry));
  const isWhole = said.length === Object.keys(readings).length && claims.every((one) => one.parsed !== null);
  return { claims, isWhole };
}

function claimOf(kind: Kind, name: string, text: string, source: Entry): Claim {
  const field = fieldOf(kind, name);
  const read = field === undefined ? null : readReading(text, field);
  return { field: name, text, parsed: read?.ok ? read.reading : null, source };
}
