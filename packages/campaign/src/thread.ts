import type { Entry } from '@firnbook/journal';
import type { Claim } from './claims.ts';
import type { Kind } from './kind.ts';

/**
 * What one thread's entries add up to: readings and links, no computed number (J6). A thread is the campaign
 * itself or one hole; everything about a hole is told in its own thread, so a late entry refolds that hole alone.
 */
export interface ThreadState {
  /** By id, in the order in which they were applied. */
  readonly things: Map<string, Thing>;
  /** Ids of entries applied. */
  readonly seen: Set<string>;
  /** Entries kept until what they point at is here, by the first id that is missing. */
  readonly waiting: Map<string, Entry[]>;
  /** Hashes of entries that hold something this version cannot read (J5). */
  readonly notUnderstood: Set<string>;
}

/** Something that an entry created; its id is that entry's. */
export interface Thing {
  readonly id: string;
  readonly kind: Kind;
  readonly logged: Entry;
  claims: readonly Claim[];
  readonly withdrawals: Entry[];
  /** The thing that this one turned out to be. Followed to its end, it never leads back here. */
  joinedInto: string | null;
  readonly touchedBy: Entry[];
}

export const emptyThread = (): ThreadState => ({
  things: new Map(),
  seen: new Set(),
  waiting: new Map(),
  notUnderstood: new Set(),
});

export const CAMPAIGN_THREAD = 'campaign';

export const holeThread = (hole: string): string => `hole:${hole}`;

/** The one thread an entry is told in. Depends on nothing but the entry; nonsense goes to the campaign's. */
export function threadOf(entry: Entry): string {
  const { header, body } = entry;
  if (body !== null && typeof body.hole === 'string' && body.hole !== '') return holeThread(body.hole);
  return body !== null && header.kind === 'hole.logged' ? holeThread(header.id) : CAMPAIGN_THREAD;
}

/** What a thing is now, after all joins. Undefined for an id that no thing here has. */
export function rootOf(state: ThreadState, id: string): Thing | undefined {
  let thing = state.things.get(id);
  while (thing !== undefined && thing.joinedInto !== null) thing = state.things.get(thing.joinedInto);
  return thing;
}

/** Entries that wait for the one they point at. */
export function waitingIn(state: ThreadState): number {
  let count = 0;
  for (const entries of state.waiting.values()) count += entries.length;
  return count;
}
