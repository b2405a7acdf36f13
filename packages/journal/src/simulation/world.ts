import type { Draft, Entry, Sealed } from '../entry.ts';
import type { Limit } from '../exchange.ts';
import type { Fold } from '../fold.ts';
import type { Source } from '../ids.ts';
import { createMemoryDisk, createMemoryStore, type MemoryDisk, type MemoryFault } from '../memory-store.ts';
import { openReplica, type Replica } from '../replica.ts';
import { RULES } from '../rules.ts';
import { type Opened, open } from '../seal.ts';
import type { Signer } from '../signature.ts';
import { CORRECTED, createBook, type Page, SAID, standing, UNKNOWN } from './book.ts';
import type { Mutant } from './mutants.ts';
import { type Random, seededRandom } from './random.ts';

const CAMPAIGN = 'ceredin-saddle';
export const CAMP = 'camp';
const DAY = 86_400_000;
const YEAR = 365 * DAY;
const START = Date.UTC(2031, 0, 14, 12);

/** A running process: on a tablet each tab is one. */
export interface Tab {
  readonly replica: Replica;
  readonly book: Fold<Page>;
  /** Lives of the server's store that this process has heard of. */
  readonly heard: Set<string>;
}

/** A machine: what is on its disk outlives its processes. */
export interface Machine {
  readonly name: string;
  readonly isServer: boolean;
  disk: MemoryDisk;
  tabs: readonly Tab[];
  tabCount: number;
  /** Milliseconds by which its clock is off. */
  skew: number;
  isFull: boolean;
  /** Runs a program from before differences: it neither says nor understands them. */
  isEarlier: boolean;
  /** What it signs with; null where its browser can't. */
  key: string | null;
  /** Signing fails until the process is started anew. */
  cannotSign: boolean;
  /** What happens to the next append. */
  nextFault: MemoryFault | null;
  /** What `heard` was when the news were last noted on the disk. */
  noted: ReadonlySet<string>;
}

export interface Message {
  readonly to: Machine;
  readonly from: Machine;
  readonly peer: string;
  readonly text: { readonly request: unknown } | { readonly reply: unknown };
  readonly tab: number;
}

export interface World {
  readonly random: Random;
  readonly mutant: Mutant;
  readonly server: Machine;
  readonly tablets: Machine[];
  readonly messages: Message[];
  readonly limit: { entries: number; characters: number };
  readonly loss: number;
  time: number;
  /** Entries whose writer was told "saved", by hash, as long as one disk holds them. */
  readonly saved: Map<string, Entry>;
  /** Devices that exist twice. */
  readonly cloned: Set<string>;
  /** Faults that this history met. */
  readonly met: Set<string>;
  readonly opened: Map<string, Opened>;
  backup: MemoryDisk | null;
  count: number;
}

export async function createWorld(seed: number, mutant: Mutant): Promise<World> {
  const random = seededRandom(seed);
  const world: World = {
    random,
    mutant,
    server: machine(CAMP, true, createMemoryDisk('camp-0')),
    tablets: Array.from({ length: 2 + random.below(3) }, (_, index) =>
      machine(`tablet-${index}`, false, createMemoryDisk(`t${index}`)),
    ),
    messages: [],
    limit: { entries: random.pick([1, 2, 3, 500]), characters: 1_000_000 },
    loss: random.chance(0.5) ? random.next() * 0.4 : 0,
    time: START,
    saved: new Map(),
    cloned: new Set(),
    met: new Set(),
    opened: new Map(),
    backup: null,
    count: 0,
  };
  for (const one of [world.server, ...world.tablets]) {
    if (random.chance(0.7)) one.key = newKey(world);
    if (random.chance(0.3)) setClock(world, one);
    if (random.chance(0.1)) one.isEarlier = true;
    if (!one.isServer && random.chance(0.2)) one.tabCount = 2;
    await boot(world, one);
  }
  return world;
}

export function machine(name: string, isServer: boolean, disk: MemoryDisk): Machine {
  return {
    name,
    isServer,
    disk,
    tabs: [],
    tabCount: 1,
    skew: 0,
    isFull: false,
    isEarlier: false,
    key: null,
    cannotSign: false,
    nextFault: null,
    noted: new Set(),
  };
}

/** Looks like an Ed25519 key. */
export function newKey(world: World): string {
  world.count += 1;
  return `key-${world.count}-`.padEnd(43, 'A');
}

/** Stands for Ed25519, whose arithmetic is no part of the protocol and would take most of the time (FNV-1a, 32 bits). */
export function signatureBy(key: string, text: string): string {
  let sum = 0x811c9dc5;
  for (const part of [key, text])
    for (let at = 0; at < part.length; at += 1) sum = Math.imul(sum ^ part.charCodeAt(at), 0x01000193);
  return `${sum >>> 0}-`.padEnd(86, 'A');
}

function signerOf(world: World, one: Machine): Signer | null {
  const { key } = one;
  if (key === null) return null;
  return {
    key,
    sign(text) {
      if (one.cannotSign) throw new Error('This machine was told not to sign.');
      world.met.add('signed');
      return signatureBy(key, text);
    },
  };
}

export function setClock(world: World, one: Machine): void {
  one.skew = world.random.pick([-world.time, -YEAR, YEAR, -3 * DAY, 7 * 60_000]);
  world.met.add('wrong clock');
}

/** Start the machine's processes anew: all that was only in memory is gone. */
export async function boot(world: World, one: Machine): Promise<void> {
  one.cannotSign = false;
  if (one.isEarlier) world.met.add('earlier program');
  let lock: Promise<unknown> = Promise.resolve();
  const exclusive = <T>(work: () => Promise<T>): Promise<T> => {
    const mine = lock.then(work);
    lock = mine.catch(() => undefined);
    return mine;
  };
  if (one.tabCount > 1) world.met.add('two tabs');
  const tabs: Tab[] = [];
  for (let index = 0; index < one.tabCount; index += 1) {
    tabs.push(await startTab(world, one, one.tabCount > 1 ? exclusive : null));
  }
  one.tabs = tabs;
}

async function startTab(
  world: World,
  one: Machine,
  exclusive: (<T>(work: () => Promise<T>) => Promise<T>) | null,
): Promise<Tab> {
  const { mutant } = world;
  const { disk } = one;
  const plain = createMemoryStore(CAMPAIGN, disk, {
    append() {
      const fault = one.isFull ? 'refused' : one.nextFault;
      one.nextFault = null;
      return fault;
    },
    setNote: () => (one.isFull ? 'refused' : null),
  });
  const store = mutant.store?.(plain, disk, one.isServer) ?? plain;
  const now = () => world.time + one.skew;
  const source: Source = { now, randomBytes: world.random.bytes };
  const limit: Limit = world.limit;
  // Opening is the costly part and depends on the bytes alone, so each entry is opened once per history.
  const openOnce: typeof open = (sealed) => {
    const known = world.opened.get(sealed.hash);
    if (known?.ok && isSameText(known.entry.sealed, sealed)) return known;
    const opened = open(sealed);
    if (opened.ok) world.opened.set(sealed.hash, opened);
    return opened;
  };
  const honest = { ...RULES, open: openOnce };
  const rules = { ...honest, ...mutant.rules?.(honest, { now, isServer: one.isServer }) };
  const signer = signerOf(world, one);
  const opened = await openReplica(store, {
    ...source,
    limit,
    rules,
    verify: (key, signature, text) => signature === signatureBy(key, text),
    ...(signer === null ? {} : { signer }),
    ...(exclusive === null ? {} : { exclusive }),
  });
  const replica = mutant.replica?.(opened, one.isServer) ?? opened;
  const book = createBook();
  book.add(replica.ledger.entries());
  replica.subscribe((added) => book.add(added));
  return { replica, book, heard: new Set(one.noted) };
}

function isSameText(a: Sealed, b: Sealed): boolean {
  return a.head === b.head && a.body === b.body && a.signature === b.signature;
}

/** Something a person on this machine might write next, judging by what the tab shows. */
export function nextDrafts(world: World, tab: Tab): readonly Draft[] {
  const { random } = world;
  const many = random.chance(0.15) ? 2 : 1;
  return Array.from({ length: many }, () => {
    world.count += 1;
    const said = { id: `entry-${world.count}`, version: 1, observedAt: 'as the person says', by: 'kv' };
    const hole = random.pick(['CER-A', 'CER-B']);
    const readings = { value: `${random.below(1000)} cm` };
    if (random.chance(0.1)) {
      world.met.add('unknown kind');
      return { ...said, kind: UNKNOWN, version: 9, body: { hole, brightness: random.below(9) } };
    }
    const page = tab.book.state(`hole:${hole}`);
    if (page !== undefined && page.things.size > 0 && random.chance(0.55)) {
      const [thing, claims] = random.pick([...page.things]);
      const corrects = standing(claims).map((claim) => claim.entry);
      if (corrects.length > 1) world.met.add('conflict settled');
      return { ...said, kind: CORRECTED, corrects, reason: 'read again', body: { hole, thing, readings } };
    }
    return { ...said, kind: SAID, body: { hole, readings } };
  });
}

/** After a disk was lost or set back: what no disk holds any more cannot be asked for. */
export function forgetWhatIsGone(world: World): void {
  const disks = [world.server, ...world.tablets].map((one) => new Set(one.disk.rows.map((row) => row.hash)));
  for (const hash of world.saved.keys()) {
    if (!disks.some((disk) => disk.has(hash))) world.saved.delete(hash);
  }
}
