import { FIRST_STAMP, hear } from './clock.ts';
import type { Entry } from './entry.ts';
import { compareEntries } from './order.ts';

/** The end of a branch of a device's chain. */
export interface Head {
  readonly sequence: number;
  readonly hash: string;
}

export function headOf({ hash, header: { sequence } }: Entry): Head {
  return { sequence, hash };
}

/**
 * One device's entries whose whole past is held, by sequence: `levels[0]` is sequence 1. A level holds one entry,
 * or several where the device was cloned.
 */
export interface Chain {
  readonly levels: readonly (readonly Entry[])[];
  /** Normally one; one per branch after cloning. */
  readonly heads: readonly Entry[];
  /** Lowest sequence that two entries claim; Infinity while there is none. */
  readonly forkedAt: number;
}

export interface Fork {
  readonly device: string;
  readonly sequence: number;
  readonly hashes: readonly string[];
}

/** Everything held of one campaign, indexed. Only grows. */
export interface Ledger {
  readonly size: number;
  /** Latest stamp among all entries: the clock (clock.ts). */
  readonly latest: string;
  /** Adds what is new and returns it in total order; entries already held change nothing (J2). */
  add(entries: readonly Entry[]): readonly Entry[];
  has(hash: string): boolean;
  get(hash: string): Entry | undefined;
  /** By id; should two contents ever claim one id, the first in total order, on every device the same (I2). */
  byId(id: string): Entry | undefined;
  /** All entries in total order. The list is not to be kept: it is made anew after an addition. */
  entries(): readonly Entry[];
  devices(): Iterable<string>;
  chain(device: string): Chain | undefined;
  /** The entry of a device with the highest sequence, also where its past has a hole. */
  tip(device: string): Entry | undefined;
  /** Where a device was cloned: first sequence with more than one entry, per device. */
  forks(): readonly Fork[];
  /** Corrections of entries that are not here (yet), in total order. Kept, not shown. */
  waiting(): readonly Entry[];
  /** Entries whose `previous` is not held, after damage to a store. They are readable but cannot travel. */
  orphans(): readonly Entry[];
}

interface MutableChain {
  readonly levels: Entry[][];
  heads: Entry[];
  forkedAt: number;
}

export function createLedger(): Ledger {
  const byHash = new Map<string, Entry>();
  const byId = new Map<string, Entry>();
  const chains = new Map<string, MutableChain>();
  const tips = new Map<string, Entry>();
  /** Entries not connected to the start of their chain, by the hash they wait for. */
  const loose = new Map<string, Entry[]>();
  /** Corrections by the target id they wait for. */
  const waitingFor = new Map<string, Entry[]>();
  let sorted: Entry[] = [];
  let isSorted = true;
  let latest = FIRST_STAMP;

  function add(entries: readonly Entry[]): readonly Entry[] {
    const added: Entry[] = [];
    for (const entry of entries) {
      if (byHash.has(entry.hash)) continue;
      byHash.set(entry.hash, entry);
      added.push(entry);
      const { header } = entry;
      latest = hear(latest, header.stamp);
      const sameId = byId.get(header.id);
      if (sameId === undefined || compareEntries(entry, sameId) < 0) byId.set(header.id, entry);
      waitingFor.delete(header.id);
      for (const target of header.corrects ?? []) {
        if (!byId.has(target)) push(waitingFor, target, entry);
      }
      const tip = tips.get(header.device);
      if (tip === undefined || header.sequence > tip.header.sequence) tips.set(header.device, entry);
      const last = sorted.at(-1);
      if (last !== undefined && compareEntries(last, entry) > 0) isSorted = false;
      sorted.push(entry);
      if (lengthens(entry)) continue;
      if (isConnected(entry)) connect(entry);
      else push(loose, header.previous!, entry);
    }
    return added.sort(compareEntries);
  }

  /** Nearly every entry is the next one of an unbranched chain, and nothing waits for it. A season has 150,000 of them. */
  function lengthens(entry: Entry): boolean {
    const chain = chains.get(entry.header.device);
    if (chain?.forkedAt !== Infinity || chain.heads[0]!.hash !== entry.header.previous) return false;
    if (chain.levels.length !== entry.header.sequence - 1 || loose.has(entry.hash)) return false;
    chain.levels.push([entry]);
    chain.heads[0] = entry;
    return true;
  }

  function isConnected(entry: Entry): boolean {
    const { device, sequence, previous } = entry.header;
    if (previous === null) return true;
    const level = chains.get(device)?.levels[sequence - 2];
    return level?.some((before) => before.hash === previous) ?? false;
  }

  function connect(first: Entry): void {
    const todo = [first];
    for (let entry = todo.pop(); entry !== undefined; entry = todo.pop()) {
      const { device, sequence, previous } = entry.header;
      let chain = chains.get(device);
      if (chain === undefined) chains.set(device, (chain = { levels: [], heads: [], forkedAt: Infinity }));
      const level = chain.levels[sequence - 1];
      if (level === undefined) chain.levels.push([entry]);
      else {
        level.push(entry);
        chain.forkedAt = Math.min(chain.forkedAt, sequence);
      }
      if (chain.heads.length === 1 && chain.heads[0]!.hash === previous) chain.heads[0] = entry;
      else chain.heads = [...chain.heads.filter((head) => head.hash !== previous), entry];
      for (const child of loose.get(entry.hash) ?? []) {
        if (isConnected(child)) todo.push(child);
      }
      loose.delete(entry.hash);
    }
  }

  return {
    get size() {
      return byHash.size;
    },
    get latest() {
      return latest;
    },
    add,
    has: (hash) => byHash.has(hash),
    get: (hash) => byHash.get(hash),
    byId: (id) => byId.get(id),
    entries() {
      if (!isSorted) {
        sorted = [...sorted].sort(compareEntries);
        isSorted = true;
      }
      return sorted;
    },
    devices: () => chains.keys(),
    chain: (device) => chains.get(device),
    tip: (device) => tips.get(device),
    forks() {
      const forks: Fork[] = [];
      for (const [device, chain] of chains) {
        if (chain.forkedAt === Infinity) continue;
        const hashes = chain.levels[chain.forkedAt - 1]!.map((entry) => entry.hash).sort();
        forks.push({ device, sequence: chain.forkedAt, hashes });
      }
      return forks.sort((a, b) => (a.device < b.device ? -1 : 1));
    },
    waiting() {
      const unique = new Set([...waitingFor.values()].flat());
      return [...unique].sort(compareEntries);
    },
    orphans: () => [...byHash.values()].filter((entry) => !isHeldWhole(entry)),
  };

  function isHeldWhole(entry: Entry): boolean {
    return chains.get(entry.header.device)?.levels[entry.header.sequence - 1]?.includes(entry) ?? false;
  }
}

function push<K>(lists: Map<K, Entry[]>, key: K, entry: Entry): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [entry]);
  else list.push(entry);
}
