import type { Entry } from './entry.ts';
import { type Chain, type Head, headOf, type Ledger } from './ledger.ts';

/** What a peer says it holds: per device the heads of its branches; whatever precedes a head is held too. */
export type Have = { readonly [device: string]: readonly Head[] };

/** Per device the sequence up to which the asker is sure; the answer lists steps above it (see `haveOf`). */
export type Unsure = { readonly [device: string]: number };

/** What is known about a peer's holdings, worked out from its have-vector and the entries held here. */
export interface Coverage {
  /** The peer has said so, by naming this entry or one that follows it in its chain. */
  holds(entry: Entry): boolean;
  /**
   * The peer names entries of this device that are unknown here and lie above everything here: most likely it
   * holds all of ours and more. It is left to bring them; nothing of this device is offered meanwhile.
   */
  isAhead(device: string): boolean;
  /** Devices of which the peer names something unknown, while some of ours is unconfirmed. */
  readonly unsure: Unsure;
}

interface Covered {
  /** All entries up to this sequence; below the first fork there is one per sequence. */
  readonly upTo: number;
  /** Above the first fork: by hash. */
  readonly branch: ReadonlySet<string>;
}

const NOTHING: ReadonlySet<string> = new Set();
const NONE: Covered = { upTo: 0, branch: NOTHING };

export function coverageOf(ledger: Ledger, have: Have): Coverage {
  const covered = new Map<string, Covered>();
  const ahead = new Set<string>();
  const unsure: Record<string, number> = { __proto__: null } as never;
  for (const device of ledger.devices()) {
    const chain = ledger.chain(device)!;
    const listed = have[device] ?? [];
    // The usual case for itself: with fifty devices the rest would be most of an exchange.
    if (chain.forkedAt === Infinity && listed.length < 2) {
      const [said] = listed;
      const head = chain.heads[0]!;
      const end = said?.hash === head.hash ? head : said && ledger.get(said.hash);
      covered.set(device, end === undefined ? NONE : plainCover(chain, end));
      if (said === undefined || end !== undefined) continue;
      unsure[device] = 0;
      if (said.sequence > head.header.sequence) ahead.add(device);
      continue;
    }
    const known = listed.map((head) => ledger.get(head.hash)).filter((entry) => entry !== undefined);
    const cover = coverChain(ledger, chain, known);
    covered.set(device, cover);
    const unknown = listed.filter((head) => !ledger.has(head.hash));
    if (unknown.length === 0) continue;
    const uncovered = chain.heads.filter((head) => !isCovered(cover, head));
    if (uncovered.length === 0) continue;
    unsure[device] = Math.min(...uncovered.map((head) => surenessBelow(ledger, chain, cover, head)));
    const highest = Math.max(...uncovered.map((head) => head.header.sequence));
    // An unknown entry at or below our own end is not our chain's future: the device was cloned, offer ours.
    if (unknown.every((head) => head.sequence > highest)) ahead.add(device);
  }
  return {
    holds(entry) {
      const cover = covered.get(entry.header.device);
      return cover !== undefined && isCovered(cover, entry);
    },
    isAhead: (device) => ahead.has(device),
    unsure,
  };
}

/**
 * What this journal holds, for a peer: the heads of every chain. Where the peer was unsure from sequence `n` on,
 * also the entries n+1, n+2, n+4, n+8 ... of each branch, so that two journals that differ find the place where
 * they part in a few exchanges, however long the chain.
 */
export function haveOf(ledger: Ledger, unsure: Unsure = {}): Have {
  const have: Record<string, readonly Head[]> = { __proto__: null } as never;
  for (const device of ledger.devices()) {
    const chain = ledger.chain(device)!;
    const listed = new Map<string, Entry>();
    const from = Object.hasOwn(unsure, device) ? unsure[device]! : null;
    for (const head of chain.heads) {
      listed.set(head.hash, head);
      if (from !== null)
        for (const step of stepsAbove(ledger, chain, head, from)) listed.set(step.hash, step);
    }
    have[device] = [...listed.values()].map(headOf);
  }
  return have;
}

function stepsAbove(ledger: Ledger, chain: Chain, head: Entry, from: number): readonly Entry[] {
  const steps: Entry[] = [];
  const wanted = new Set<number>();
  for (let step = 1; from + step < head.header.sequence; step *= 2) wanted.add(from + step);
  for (let entry: Entry | undefined = head; entry !== undefined && wanted.size > 0; ) {
    const { sequence, previous } = entry.header;
    if (wanted.delete(sequence)) steps.push(entry);
    if (sequence <= chain.forkedAt) break;
    entry = ledger.get(previous!);
  }
  // Below the first fork the branch is the level's only entry: no need to walk.
  for (const sequence of wanted) {
    if (sequence < chain.forkedAt) steps.push(...chain.levels[sequence - 1]!);
  }
  return steps;
}

function plainCover({ levels }: Chain, { header: { sequence }, hash }: Entry): Covered {
  return levels[sequence - 1]?.[0]?.hash === hash ? { upTo: sequence, branch: NOTHING } : NONE;
}

function coverChain(ledger: Ledger, chain: Chain, known: readonly Entry[]): Covered {
  let upTo = 0;
  let branch: Set<string> | null = null;
  for (const end of known) {
    if (!(chain.levels[end.header.sequence - 1]?.includes(end) ?? false)) continue;
    upTo = Math.max(upTo, Math.min(end.header.sequence, chain.forkedAt - 1));
    for (
      let entry: Entry | undefined = end;
      entry !== undefined && entry.header.sequence >= chain.forkedAt;
    ) {
      branch ??= new Set();
      if (branch.has(entry.hash)) break;
      branch.add(entry.hash);
      entry = entry.header.previous === null ? undefined : ledger.get(entry.header.previous);
    }
  }
  return { upTo, branch: branch ?? NOTHING };
}

/** Highest sequence on the branch of `head` that is covered; 0 where none is. */
function surenessBelow(ledger: Ledger, chain: Chain, cover: Covered, head: Entry): number {
  let entry: Entry | undefined = head;
  while (entry !== undefined && entry.header.sequence >= chain.forkedAt && !cover.branch.has(entry.hash)) {
    entry = entry.header.previous === null ? undefined : ledger.get(entry.header.previous);
  }
  if (entry === undefined) return 0;
  return entry.header.sequence < chain.forkedAt ? cover.upTo : entry.header.sequence;
}

function isCovered(cover: Covered, entry: Entry): boolean {
  return entry.header.sequence <= cover.upTo || cover.branch.has(entry.hash);
}
