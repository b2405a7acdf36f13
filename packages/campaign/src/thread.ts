import type { Entry } from '@firnbook/journal';
import type { Said } from './claims.ts';
import type { Kind } from './kind.ts';
import type { ThingView } from './view.ts';

/**
 * What one thread's entries add up to: readings and links, no computed number (J6). A thread is the campaign
 * itself or one hole; everything about a hole is told in its own thread, so a late entry refolds that hole alone.
 */
export interface ThreadState {
  /** By id, in the order in which they were applied. */
  readonly things: Map<string, Thing>;
  /** What things are after all joins, by kind, in total order of the entries that logged them. */
  readonly roots: Map<Kind, Thing[]>;
  /** Ids of entries applied that logged no thing. */
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
  /** Those of its thread, by id: what its readings name is looked up there. */
  readonly among: ReadonlyMap<string, Thing>;
  /** What its entry and later ones say of it, in the order in which they were applied. */
  said: Said[];
  withdrawals: Entry[];
  /** The thing that this one turned out to be. Followed to its end, it never leads back here. */
  joinedInto: string | null;
  /** Whatever was joined into this one, directly or through others, in total order of logging. */
  absorbed: readonly Thing[];
  /** Entries that touched it after the one that logged it. */
  touchedBy: Entry[];
  /** Kept for the next look; null as soon as an entry has changed what it shows. */
  view: ThingView | null;
  /** What the names in `view` were made of, where that is not the thing's own: of a run and of its pieces. */
  home: PieceHome | null;
}

/** What the name of a piece is made of besides its own number. */
export interface PieceHome {
  /** Id of the run that it belongs to now. */
  readonly run: string;
  /** Letters that the hole has had, the present one last. */
  readonly letters: readonly string[];
  /** The run's number now. */
  readonly number: number | null;
  /** Every number of every run it was ever said to belong to. */
  readonly numbersEver: readonly number[];
}

export const emptyThread = (): ThreadState => ({
  things: new Map(),
  roots: new Map(),
  seen: new Set(),
  waiting: new Map(),
  notUnderstood: new Set(),
});

export const CAMPAIGN_THREAD = 'campaign';

export const holeThread = (hole: string): string => `hole:${hole}`;

/** The hole in whose thread an entry is told; null for the campaign's own. Depends on nothing but the entry. */
export function holeOf({ header, body }: Entry): string | null {
  if (body === null) return null;
  if (typeof body.hole === 'string' && body.hole !== '') return body.hole;
  return header.kind === 'hole.logged' ? header.id : null;
}

export const rootsOf = (state: ThreadState, kind: Kind): readonly Thing[] => state.roots.get(kind) ?? [];

/** What a thing is now, after all joins. Undefined for an id that no thing here has. */
export const rootOf = (state: ThreadState, id: string): Thing | undefined => rootAmong(state.things, id);

export function rootAmong(things: ReadonlyMap<string, Thing>, id: string): Thing | undefined {
  let thing = things.get(id);
  while (thing !== undefined && thing.joinedInto !== null) thing = things.get(thing.joinedInto);
  return thing;
}

/** Entries that wait for the one they point at. */
export function waitingIn(state: ThreadState): number {
  let count = 0;
  for (const entries of state.waiting.values()) count += entries.length;
  return count;
}
