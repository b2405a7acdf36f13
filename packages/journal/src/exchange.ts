import type { Coverage, Unsure } from './coverage.ts';
import type { Entry, Sealed } from './entry.ts';
import type { Ledger } from './ledger.ts';
import { compareEntries } from './order.ts';
import type { Said } from './said.ts';
import type { Opened } from './seal.ts';

/** Version of the exchange below. A server speaks this one and the one before. */
export const PROTOCOL = 1;

/** One side's half of an exchange: what it holds, what it is unsure about, what it offers. */
interface Half extends Said {
  readonly protocol: number;
  readonly campaign: string;
  /** Names this exchange: the reply repeats the request's. A late reply's news of the peer are not believed. */
  readonly turn: string;
  /** The life of the sender's store (Store.epoch). */
  readonly epoch: string;
  /**
   * The receiver's epoch on which the choice of `entries` rests; null where nothing was known of it. To a store
   * that has been set back since, or is another one, they are not sent at all: it would take a correction whose
   * target it no longer holds.
   */
  readonly basis: string | null;
  /** Sender's wall clock, ms since 1970: only to notice a clock that is off (J7). */
  readonly now: number;
  /**
   * Mark under which the sender knows what the receiver holds (said.ts): a difference to it will do. Left out where it
   * knows nothing under a mark, and by programs that understand no differences.
   */
  readonly knows?: string;
  readonly unsure: Unsure;
  readonly entries: readonly Sealed[];
}

export interface Request extends Half {
  /** Device that asks. */
  readonly from: string;
  /** Hashes of what it refused of the last reply; left out where there were none. */
  readonly refused?: readonly string[];
}

export interface Reply extends Half {
  readonly refused: readonly Refused[];
  /** There is more to bring than went into this reply: ask again. */
  readonly more: boolean;
  /** The request's have-vector is a difference to what is not known here (any more): ask again, with all of it. */
  readonly forgot?: boolean;
}

export interface Refused {
  readonly hash: string;
  readonly problem: string;
}

/** Largest offer in one request or reply. At least one entry always goes. */
export interface Limit {
  readonly entries: number;
  /** Head and body together, in UTF-16 code units. */
  readonly characters: number;
}

export const LIMIT: Limit = { entries: 500, characters: 1_000_000 };

export interface Offer {
  readonly entries: readonly Entry[];
  readonly more: boolean;
}

/**
 * Everything held here that the peer has not said to hold, own and others', in total order and cut to the limit.
 * An entry never goes before the one it follows or one it corrects, whatever their stamps say: where the order
 * needs it these go first, and where they must wait (`Coverage.isAhead`) it waits too (I4).
 */
export function offer(ledger: Ledger, coverage: Coverage, limit: Limit = LIMIT): Offer {
  const offered = new Set<Entry>();
  const postponed = new Set<Entry>();
  let characters = 0;
  let isCut = false;

  /** Whether the peer has or gets this entry. */
  function isOnItsWay(entry: Entry): boolean {
    return offered.has(entry) || coverage.holds(entry);
  }

  function needs(entry: Entry): readonly Entry[] {
    const { previous, corrects } = entry.header;
    if (previous === null && corrects === undefined) return [];
    const needed = (corrects ?? []).map((id) => ledger.byId(id));
    if (previous !== null) needed.push(ledger.get(previous));
    // A target that is not here or cannot travel must not hold back what follows (J5).
    return needed.filter(
      (one) => one !== undefined && one !== entry && !isOnItsWay(one) && travels(ledger, one),
    ) as Entry[];
  }

  function bring(first: Entry): void {
    const stack = [first];
    const open = new Set<Entry>();
    while (stack.length > 0 && !isCut) {
      const entry = stack.at(-1)!;
      const needed = isOnItsWay(entry) || postponed.has(entry) ? [] : needs(entry);
      const missing = needed.filter((one) => !open.has(one) && !postponed.has(one));
      if (missing.length > 0) {
        open.add(entry);
        stack.push(...missing);
        continue;
      }
      stack.pop();
      if (isOnItsWay(entry) || postponed.has(entry)) continue;
      if (coverage.isAhead(entry.header.device) || needed.some((one) => postponed.has(one))) {
        postponed.add(entry);
        continue;
      }
      const size = entry.sealed.head.length + (entry.sealed.body?.length ?? 0);
      if (offered.size > 0 && (offered.size >= limit.entries || characters + size > limit.characters))
        isCut = true;
      else {
        offered.add(entry);
        characters += size;
      }
    }
  }

  for (const entry of unconfirmed(ledger, coverage)) {
    if (isCut) break;
    if (!isOnItsWay(entry) && entry.sealed.body !== null) bring(entry);
  }
  return { entries: [...offered], more: isCut };
}

/**
 * What may have to go, in total order: of each device that isn't ahead, the connected entries that the peer is not
 * known to hold. Walks each chain down from its top and stops where the peer's holdings begin.
 */
function unconfirmed(ledger: Ledger, coverage: Coverage): readonly Entry[] {
  const found: Entry[] = [];
  for (const device of ledger.devices()) {
    if (coverage.isAhead(device)) continue;
    const chain = ledger.chain(device)!;
    for (let sequence = chain.levels.length; sequence > 0; sequence -= 1) {
      const level = chain.levels[sequence - 1]!;
      for (const entry of level) if (!coverage.holds(entry)) found.push(entry);
      // Below the first fork a held entry means that everything before it is held.
      if (sequence < chain.forkedAt && coverage.holds(level[0]!)) break;
    }
  }
  return found.sort(compareEntries);
}

/** Entries with a hole in their past stay where they are: no peer would accept them. */
function travels(ledger: Ledger, entry: Entry): boolean {
  const level = ledger.chain(entry.header.device)?.levels[entry.header.sequence - 1];
  return level?.includes(entry) ?? false;
}

export interface Accepted {
  /** New ones, in the order in which they came. */
  readonly entries: readonly Entry[];
  readonly refused: readonly Refused[];
}

/**
 * What of an offer is taken: size, form and hashes are right, it belongs to this campaign, and it follows an
 * entry that is held (or starts a chain). Never looks at kind or body (J5), and a refused entry holds back only
 * what follows it in its own chain.
 */
export function accept(
  find: (hash: string) => Entry | undefined,
  campaign: string,
  offered: readonly Sealed[],
  rules: Pick<AcceptRules, 'open' | 'admit'>,
): Accepted {
  const fresh = new Map<string, Entry>();
  const refused: Refused[] = [];
  const findAny = (hash: string) => fresh.get(hash) ?? find(hash);
  for (const sealed of offered) {
    const opened = rules.open(sealed);
    if (!opened.ok) {
      refused.push({ hash: String(sealed?.hash), problem: opened.problem });
      continue;
    }
    const { entry } = opened;
    const answer = rules.admit(entry, campaign, findAny);
    if (answer === 'new') fresh.set(entry.hash, entry);
    else if (answer !== 'held') refused.push({ hash: entry.hash, problem: answer.problem });
  }
  return { entries: [...fresh.values()], refused };
}

export interface AcceptRules {
  readonly open: (sealed: Sealed) => Opened;
  readonly admit: typeof admit;
}

export type Admission = 'new' | 'held' | { readonly problem: string };

/** The chain rule: only the next sequence number, after an entry of the same device that is held. */
export function admit(entry: Entry, campaign: string, find: (hash: string) => Entry | undefined): Admission {
  const { header } = entry;
  if (header.campaign !== campaign) return { problem: `belongs to campaign ${header.campaign}` };
  if (find(entry.hash) !== undefined) return 'held';
  // A copy without the body would take the place of the whole entry for ever.
  if (entry.sealed.body === null)
    return { problem: 'the body is withheld; such copies are read, not exchanged' };
  if (header.previous === null) return 'new';
  const before = find(header.previous);
  if (before === undefined)
    return { problem: `the entry before it (sequence ${header.sequence - 1}) is not here` };
  if (before.header.device !== header.device) return { problem: 'it follows an entry of another device' };
  if (before.header.sequence !== header.sequence - 1)
    return { problem: 'its sequence does not follow the one before' };
  return 'new';
}
