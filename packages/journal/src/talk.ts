import type { Coverage, Have, Unsure } from './coverage.ts';
import type { Entry, Sealed } from './entry.ts';
import { type Limit, type Offer, PROTOCOL, type Refused, type Reply, type Request } from './exchange.ts';
import { newSalt, type Source, wholeMilliseconds } from './ids.ts';
import type { Ledger } from './ledger.ts';
import { PEERS_NOTE, type PeerNews, readPeers, writePeers } from './peers.ts';
import type { Rules } from './rules.ts';
import { createSpeaker, type Said } from './said.ts';
import type { Store } from './store.ts';

export interface Taken {
  /** What was new, now durable, in total order. */
  readonly added: readonly Entry[];
  readonly refused: readonly Refused[];
}

export interface Heard extends Taken {
  /** Something moved and more is waiting on one of the sides: exchange again at once. */
  readonly again: boolean;
  /** Milliseconds by which this device's clock is ahead of the peer's. */
  readonly clockOff: number;
  /** What the peer refused of ours. */
  readonly refusedThere: readonly Refused[];
}

/** What is known to be on another machine, under the epoch it last named (I9). */
export interface Safety {
  /** Null before the first exchange. */
  readonly epoch: string | null;
  /** This device's wall clock at that exchange. */
  readonly at: number | null;
  holds(entry: Entry): boolean;
  /** Entries not known to be there, in total order. */
  missing(): readonly Entry[];
}

/** The exchange with other copies. */
export interface Talk {
  /** Begin an exchange. Offers what the ledger holds: where tabs share a store, `refresh` first. */
  ask(peer: string): Request;
  /** The other side of it. Resolves when the request's entries are durable here. */
  answer(request: Request): Promise<Reply>;
  /** Finish it. News of the peer from a reply to an older `ask` are not believed; its entries are taken. */
  hear(peer: string, reply: Reply): Promise<Heard>;
  /** By the peer's name, or by a device's name where that device asked here. */
  safety(peer: string): Safety;
  /** Milliseconds by which the clocks of devices that asked here are ahead of this one's (J7). */
  clocksOff(): ReadonlyMap<string, number>;
}

export interface TalkOptions extends Source {
  readonly store: Store;
  readonly epoch: string;
  readonly ledger: Ledger;
  readonly rules: Rules;
  readonly limit: Limit;
  readonly device: () => string;
  readonly take: (offered: readonly Sealed[]) => Promise<Taken>;
}

const ASKERS_LIMIT = 1_000;

/** `clockOff`: how far this device's clock was ahead of the peer's that told last, in ms; 0 before. */
export async function createTalk(options: TalkOptions): Promise<Talk & { clockOff(): number }> {
  const { store, epoch, ledger, rules, limit, take } = options;
  const { campaign } = store;
  const peers = readPeers(await store.note(PEERS_NOTE));
  /** What the store's note says; `peers` without what a full disk kept from being noted. */
  const noted = new Map(peers);
  const askers = new Map<string, PeerNews>();
  /** Exchanges under way, each with what the peer was known to hold when it began. */
  const turns = new Map<string, { readonly turn: string; readonly news: PeerNews | undefined }>();
  /** Mark of what a peer has just told to know of this side. */
  const knownThere = new Map<string, string>();
  const speaker = createSpeaker(ledger);
  const unsureOf = new Map<string, Unsure>();
  /** Hashes that this device refused of a peer's last reply. */
  const refusedOf = new Map<string, readonly string[]>();
  /** Devices of which a peer has just refused something. */
  const resting = new Map<string, ReadonlySet<string>>();
  const coverages = new Map<string, { news: PeerNews; size: number; coverage: Coverage }>();

  function newsOf(peer: string): PeerNews | undefined {
    return peers.get(peer) ?? askers.get(peer);
  }

  /** The newest askers only: a peer that makes names up must not fill the memory. */
  function remember(asker: string, news: PeerNews): void {
    askers.delete(asker);
    askers.set(asker, news);
    const [oldest] = askers.keys();
    if (askers.size <= ASKERS_LIMIT || oldest === undefined) return;
    askers.delete(oldest);
    coverages.delete(oldest);
    resting.delete(oldest);
  }

  /** Worked out once for what the peer said and what is held here. */
  function coverageFor(peer: string, news: PeerNews | undefined): Coverage | null {
    if (news === undefined) return null;
    const known = coverages.get(peer);
    if (known !== undefined && known.news === news && known.size === ledger.size) return known.coverage;
    const coverage = rules.coverageOf(ledger, news.have);
    coverages.set(peer, { news, size: ledger.size, coverage });
    return coverage;
  }

  function rest(peer: string, refused: readonly string[]): void {
    const devices = refused.map((hash) => ledger.get(hash)?.header.device).filter((one) => one !== undefined);
    if (devices.length > 0) resting.set(peer, new Set(devices));
  }

  /**
   * Of a device whose entries the peer has just refused nothing is offered the next time, where there is anything
   * else: a chain that nobody takes (J9) must not fill every offer and hold back the others.
   */
  function offerTo(peer: string, coverage: Coverage): Offer {
    const devices = resting.get(peer);
    resting.delete(peer);
    if (devices !== undefined) {
      const isAhead = (device: string) => devices.has(device) || coverage.isAhead(device);
      const others = rules.offer(ledger, { ...coverage, isAhead }, limit);
      if (others.entries.length > 0) return { entries: others.entries, more: true };
    }
    return rules.offer(ledger, coverage, limit);
  }

  /** An offer that rests on another life of this store is left lying (`Half.basis`). */
  async function takeFor(half: Pick<Request, 'basis' | 'entries'>): Promise<Taken> {
    if (half.basis !== epoch || half.entries.length === 0) return { added: [], refused: [] };
    return take(half.entries);
  }

  async function note(peer: string, news: PeerNews): Promise<void> {
    await store.setNote(PEERS_NOTE, writePeers(peers));
    noted.set(peer, news);
  }

  /** Where the peer is unsure it needs more than the heads: then it is told all. */
  function holdings(knows: string | undefined, unsure: Unsure = {}): Said {
    return Object.keys(unsure).length === 0 ? speaker.say(knows) : { have: rules.haveOf(ledger, unsure) };
  }

  /** For one request alone: where no answer comes to the difference, the next request says all. */
  function knownOnce(peer: string): string | undefined {
    const mark = knownThere.get(peer);
    knownThere.delete(peer);
    return mark;
  }

  function half() {
    return { protocol: PROTOCOL, campaign, epoch, now: wallClock() };
  }

  /** A broken clock must not make a message that nobody can read. */
  function wallClock(): number {
    return wholeMilliseconds(options.now(), Number.MAX_SAFE_INTEGER);
  }

  return {
    ask(peer) {
      const turn = newSalt(options);
      const news = newsOf(peer);
      turns.set(peer, { turn, news });
      const coverage = coverageFor(peer, news);
      const offered = coverage === null ? [] : offerTo(peer, coverage).entries;
      const refused = refusedOf.get(peer) ?? [];
      return {
        ...half(),
        from: options.device(),
        turn,
        basis: news?.epoch ?? null,
        ...holdings(knownOnce(peer), unsureOf.get(peer)),
        ...(news?.mark === undefined ? {} : { knows: news.mark }),
        unsure: coverage?.unsure ?? {},
        entries: offered.map((entry) => entry.sealed),
        ...(refused.length === 0 ? {} : { refused }),
      };
    },

    async answer(request) {
      const at = wallClock();
      const { refused } = await takeFor(request);
      const { from } = request;
      const whole = rules.wholeOf(askers.get(from), request);
      const have = whole ?? request.have;
      const news = { epoch: request.epoch, have, ...marked(whole, request), clockOff: at - request.now, at };
      remember(from, news);
      const coverage = coverageFor(from, news)!;
      rest(from, request.refused ?? []);
      // Of what it left out nothing is known: whatever is offered it may have had for long.
      const { entries, more } = whole === null ? { entries: [], more: true } : offerTo(from, coverage);
      return {
        ...half(),
        turn: request.turn,
        basis: request.epoch,
        ...holdings(request.basis === epoch ? request.knows : undefined, request.unsure),
        ...(whole === null ? { forgot: true } : {}),
        ...(news.mark === undefined ? {} : { knows: news.mark }),
        unsure: coverage.unsure,
        entries: entries.map((entry) => entry.sealed),
        refused,
        more,
      };
    },

    async hear(peer, reply) {
      const at = wallClock();
      const clockOff = at - reply.now;
      const before = peers.get(peer);
      const asked = turns.get(peer);
      const isCurrent = asked?.turn === reply.turn;
      if (isCurrent) {
        turns.delete(peer);
        unsureOf.set(peer, reply.unsure);
        const whole = rules.wholeOf(asked.news, reply);
        const have = whole ?? reply.have;
        peers.set(peer, { epoch: reply.epoch, have, ...marked(whole, reply), clockOff, at });
        if (reply.knows !== undefined) knownThere.set(peer, reply.knows);
      }
      const { added, refused } = await takeFor(reply);
      if (isCurrent) {
        refusedOf.set(
          peer,
          refused.map(({ hash }) => hash),
        );
        rest(
          peer,
          reply.refused.map(({ hash }) => hash),
        );
      }
      const news = peers.get(peer);
      if (isCurrent && isWorthNoting(noted.get(peer), news!)) await note(peer, news!);
      const hasMoved = added.length > 0 || !isSameNews(before, news);
      const coverage = coverageFor(peer, news);
      const isOwing =
        coverage !== null && rules.offer(ledger, coverage, { ...limit, entries: 1 }).entries.length > 0;
      return {
        added,
        refused,
        again: (isCurrent && reply.forgot === true) || (hasMoved && (reply.more || isOwing)),
        clockOff,
        refusedThere: reply.refused,
      };
    },

    safety(peer) {
      const news = newsOf(peer);
      const coverage = coverageFor(peer, news);
      const holds = (entry: Entry) => coverage?.holds(entry) ?? false;
      return {
        epoch: news?.epoch ?? null,
        at: news?.at ?? null,
        holds,
        missing: () => ledger.entries().filter((entry) => !holds(entry)),
      };
    },

    clocksOff: () => new Map([...askers].map(([device, news]) => [device, -news.clockOff])),

    clockOff() {
      let last: PeerNews | undefined;
      for (const news of peers.values()) if (last === undefined || news.at > last.at) last = news;
      return last?.clockOff ?? 0;
    },
  };
}

/** Every poll tells the same: the disk is spared. */
function isWorthNoting(noted: PeerNews | undefined, news: PeerNews): boolean {
  return !isSameNews(noted, news) || Math.abs(news.clockOff - noted!.clockOff) > 1_000;
}

function isSameNews(a: PeerNews | undefined, b: PeerNews | undefined): boolean {
  return a?.epoch === b?.epoch && isSameHave(a?.have, b?.have);
}

function isSameHave(a: Have = {}, b: Have = {}): boolean {
  if (a === b) return true;
  const hashes = (have: Have, device: string) => (have[device] ?? []).map(({ hash }) => hash).join();
  return [a, b].every((have) => Object.keys(have).every((device) => hashes(a, device) === hashes(b, device)));
}

/** What is not known as a whole has no name either. */
function marked(whole: Have | null, { mark }: Said): { readonly mark?: string } {
  return whole === null || mark === undefined ? {} : { mark };
}
