import { compareEntries, type Entry, type Json, type JsonObject } from '@firnbook/journal';
import type { Said } from './claims.ts';
import type { Kind } from './kind.ts';
import { fieldOf, kindLoggedBy } from './kinds.ts';
import { readReading } from './reading.ts';
import { holeKind } from './setup/schema.ts';
import { setReading } from './thing-view.ts';
import { CAMPAIGN_THREAD, holeThread, rootOf, rootsOf, type Thing, type ThreadState } from './thread.ts';
import type { ReadingView } from './view.ts';

/** Entries that say something about things already there; the newest version this build reads. */
export const ADDED = 'reading.added';
export const CORRECTED = 'reading.corrected';
export const WITHDRAWN = 'thing.withdrawn';
export const RESTORED = 'thing.restored';
export const JOINED = 'things.joined';
const links: ReadonlySet<string> = new Set([ADDED, CORRECTED, WITHDRAWN, RESTORED, JOINED]);
export const LINK_VERSION = 1;

/** One for all: a season has hundreds of thousands of empty lists. */
const none: never[] = [];

/** One more in the list: in place, except in the empty one that all share. */
function grown<T>(list: T[], one: T): T[] {
  if (list.length === 0) return [one];
  list.push(one);
  return list;
}

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
    const { id } = next.header;
    if (!take(state, next, thread)) state.notUnderstood.add(next.hash);
    if (state.waiting.size === 0) continue;
    const released = state.waiting.get(id);
    if (released === undefined) continue;
    state.waiting.delete(id);
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
  return corrects?.find((id) => !state.things.has(id) && !state.seen.has(id)) ?? null;
}

/** False where it holds something that this version cannot read; the rest is taken. */
function take(state: ThreadState, entry: Entry, thread: string): boolean {
  const { kind: word, version } = entry.header;
  const kind = kindLoggedBy(word);
  if (kind !== undefined && version <= kind.version && entry.body !== null && isAtHome(kind, entry, thread))
    return log(state, entry, entry.body, kind);
  state.seen.add(entry.header.id);
  return kind === undefined && links.has(word) && version <= LINK_VERSION && link(state, entry);
}

/** A kind told in a thread that is not its own (a person in a hole, a hole in another hole) means nothing there. */
function isAtHome(kind: Kind, entry: Entry, thread: string): boolean {
  if (kind === holeKind) return thread === holeThread(entry.header.id);
  return (kind.under === 'campaign') === (thread === CAMPAIGN_THREAD);
}

function log(state: ThreadState, entry: Entry, body: JsonObject, kind: Kind): boolean {
  const { id } = entry.header;
  // An id is taken once: should a device ever use one twice, the first in total order keeps it.
  if (state.things.has(id)) return false;
  const { said, isWhole } = saidBy(kind, entry, body.readings, body.run);
  const thing: Thing = {
    id,
    kind,
    logged: entry,
    among: state.things,
    said,
    withdrawals: none,
    joinedInto: null,
    absorbed: none,
    touchedBy: none,
    view: null,
    home: null,
  };
  state.things.set(id, thing);
  // Things are logged in total order: logging one waits for nothing.
  const roots = state.roots.get(kind);
  if (roots === undefined) state.roots.set(kind, [thing]);
  else roots.push(thing);
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
    if (target !== source) absorb(state, target, source);
    touch(state, target, entry);
    return readings === undefined || claim(target, entry, readings);
  }
  const thing = typeof id === 'string' ? state.things.get(id) : undefined;
  if (thing === undefined) return false;
  touch(state, thing, entry);
  if (entry.header.kind === CORRECTED || entry.header.kind === ADDED) return claim(thing, entry, readings);
  if (entry.header.kind === RESTORED) {
    // Only the withdrawals that it names: one told on another tablet meanwhile still stands.
    const named = new Set(entry.header.corrects ?? []);
    thing.withdrawals = thing.withdrawals.filter((one) => !named.has(one.header.id));
    return named.size > 0;
  }
  thing.withdrawals = grown(thing.withdrawals, entry);
  return true;
}

function absorb(state: ThreadState, target: Thing, source: Thing): void {
  source.joinedInto = target.id;
  state.roots.set(
    source.kind,
    rootsOf(state, source.kind).filter((thing) => thing !== source),
  );
  // Whatever names the one may name the other elsewhere: both are one now.
  for (const thing of state.things.values()) thing.view = null;
  target.absorbed = [...target.absorbed, source, ...source.absorbed].sort((a, b) =>
    compareEntries(a.logged, b.logged),
  );
}

function touch(state: ThreadState, thing: Thing, entry: Entry): void {
  thing.touchedBy = grown(thing.touchedBy, entry);
  // What it shows is shown by the thing that it turned out to be.
  const root = rootOf(state, thing.id);
  if (root !== undefined) root.view = null;
}

function claim(thing: Thing, entry: Entry, readings: Json | undefined): boolean {
  const { said, isWhole } = saidBy(thing.kind, entry, readings);
  for (const one of said) thing.said = grown(thing.said, one);
  return isWhole;
}

interface Word {
  readonly said: Said[];
  /** False where some of it cannot be understood; the rest is taken. */
  readonly isWhole: boolean;
}

/**
 * What an entry says about a thing of a kind.
 *
 * @param run the run that the entry names as the thing's parent: a reading like the others
 */
function saidBy(kind: Kind, source: Entry, readings: Json | undefined, run?: Json): Word {
  const isObject = typeof readings === 'object' && readings !== null && !Array.isArray(readings);
  const texts = isObject ? (readings as JsonObject) : null;
  const parent = typeof run === 'string' && fieldOf(kind, 'run') !== undefined ? run : null;
  if (texts === null) {
    const said = parent === null ? none : [read(kind, source, {}, parent).said];
    return { said, isWhole: false };
  }
  if (parent === null || typeof texts.run !== 'string') {
    const { said, isWhole } = read(kind, source, texts, parent);
    return { said: [said], isWhole };
  }
  // The parent named twice: two words of one entry on one field.
  const { said, isWhole } = read(kind, source, texts, null);
  return { said: [said, read(kind, source, {}, parent).said], isWhole };
}

/** The one place where texts are read (J6). In the order of the kind's table, then what this version does not know. */
function read(
  kind: Kind,
  source: Entry,
  texts: JsonObject,
  parent: string | null,
): { readonly said: Said; readonly isWhole: boolean } {
  const { id: entry, by, observedAt: at } = source.header;
  const readings: Record<string, ReadingView> = {};
  const unread: string[] = [];
  let known = 0;
  let isWhole = true;
  for (const field of kind.fields) {
    const isParent = parent !== null && field.name === 'run';
    const typed = isParent ? parent : texts[field.name];
    if (typeof typed !== 'string') continue;
    if (!isParent) known += 1;
    const result = readReading(typed, field, kind);
    if (!result.ok) {
      unread.push(field.name);
      isWhole &&= isParent;
    }
    const value = result.ok ? result.reading.value : null;
    // A word of a list is shown as the list writes it.
    const text = result.ok ? (result.reading.word ?? typed) : typed;
    readings[field.name] = { field: field.name, text, value, entry, by, at, struck: none, against: none };
  }
  const names = Object.keys(texts);
  if (names.length === known)
    return { said: { source, readings, unread: unread.length === 0 ? none : unread }, isWhole };
  for (const field of names) {
    const text = texts[field];
    if (typeof text !== 'string' || fieldOf(kind, field) !== undefined) continue;
    unread.push(field);
    setReading(readings, field, { field, text, value: null, entry, by, at, struck: none, against: none });
  }
  return { said: { source, readings, unread }, isWhole: false };
}
