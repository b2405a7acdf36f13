import type { Draft, Entry, Sealed } from './entry.ts';
import { accept, LIMIT, type Limit } from './exchange.ts';
import { createGroups } from './group.ts';
import type { HashText } from './hash.ts';
import { IDENTITY_NOTE, type Identity, mayGoOn, readIdentity, writeIdentity } from './identity.ts';
import { newId, type Source } from './ids.ts';
import { createLedger, type Ledger } from './ledger.ts';
import { compareEntries } from './order.ts';
import { createPen } from './pen.ts';
import { RULES, type Rules } from './rules.ts';
import type { Opened } from './seal.ts';
import { createKeys, type Proof, proofOf, type Signer, signAll, type Verify } from './signature.ts';
import type { Store } from './store.ts';
import { createTalk, type Taken, type Talk } from './talk.ts';

export interface ReplicaOptions extends Source {
  /** Name for the device where the store has none yet; a new id otherwise. */
  readonly device?: string;
  /**
   * Runs work while nobody else uses the store (browser: a Web Lock by name). Given where several tabs or
   * processes share one store; the replica then looks for what others added before it writes.
   */
  readonly exclusive?: <T>(work: () => Promise<T>) => Promise<T>;
  readonly limit?: Limit;
  /**
   * The first rows of the store, in order of storing, as its own start-up check has opened them, hashes and all: they
   * are not read a second time. Every other row is read and checked.
   */
  readonly opened?: readonly Entry[];
  /** The platform's own SHA-256, for what comes in: in plain JavaScript it takes ten times as long. */
  readonly hash?: HashText;
  /** Signs what this device writes. Left out where the platform has no key to sign with. */
  readonly signer?: Signer;
  /** Checks what others signed. Left out where the platform can't: then only a missing signature is noticed. */
  readonly verify?: Verify;
  /** Only for the simulator, which breaks one of them at a time. */
  readonly rules?: Rules;
}

/** A row of the store that could not be opened. It stays where it is; everything else is readable. */
export interface DamagedRow {
  /** Position in the order of storing, from 0. */
  readonly position: number;
  readonly hash: string;
  readonly problem: string;
}

/**
 * One device's copy of a campaign: the entries in memory, a store that makes them durable, and the exchange with
 * other copies. Server, browser, command line and simulator are all this.
 */
export interface Replica extends Talk {
  readonly campaign: string;
  /** Name under which the next entry is written. */
  readonly device: string;
  readonly ledger: Ledger;
  readonly damaged: readonly DamagedRow[];
  /** Whether what is written next will be signed. False for good, until the next opening, once signing has failed. */
  readonly signs: boolean;
  /** What the signature of a held entry is worth, worked out now: opening a journal checks none (J9). */
  proof(entry: Entry): Promise<Proof>;
  /**
   * Seal drafts, one chain, all or none. Resolves when they are durable; the entries are in the ledger then.
   * A draft whose id is already held with the same body is answered with that entry (J2), so a write whose fate
   * is unknown can simply be repeated.
   *
   * Where drafts depend on what is held, a function makes them: it is called once, when the store was looked at and
   * everything found there was told, and nobody else writes to the store before they are durable. At most one such call
   * at a time: two that wait together do not see each other's drafts.
   *
   * @throws what the store throws: the fate of the entries is unknown then, and the store is read again before the
   * next write. TypeError or RangeError for a draft that cannot be sealed, and what the function throws: nothing is
   * written then.
   */
  write(drafts: Drafts): Promise<readonly Entry[]>;
  /** Check entries from elsewhere and keep the good ones (see exchange.ts). Resolves when they are durable. */
  take(offered: readonly Sealed[]): Promise<Taken>;
  /** Look for what other tabs or processes added to the store. Returns what was new, in total order. */
  refresh(): Promise<readonly Entry[]>;
  /** Go on writing under a new name. Done by itself where needed: a clone, a restored backup, damage. */
  newDevice(): Promise<string>;
  /** Told of every addition, after it is durable, in total order. Returns how to stop. */
  subscribe(listener: (added: readonly Entry[]) => void): () => void;
}

/** What is to be written, or what makes it. */
type Drafts = readonly Draft[] | (() => readonly Draft[]);

/** Jobs that share one append. */
const GROUP = 64;

type Job<Said = Drafts> =
  | { do: 'write'; drafts: Said; resolve: (entries: readonly Entry[]) => void; reject: Reject }
  | { do: 'take'; offered: readonly Sealed[]; resolve: (taken: Taken) => void; reject: Reject }
  | { do: 'refresh'; resolve: (added: readonly Entry[]) => void; reject: Reject }
  | { do: 'rename'; resolve: (device: string) => void; reject: Reject };
type Reject = (error: unknown) => void;
/** A job whose drafts have been made. */
type ReadyJob = Job<readonly Draft[]>;

/** Open a store: every row is checked; damaged ones are reported and do not keep the rest from being read. */
export async function openReplica(store: Store, options: ReplicaOptions): Promise<Replica> {
  const { hash } = options;
  const given = options.rules ?? RULES;
  const rules = hash === undefined ? given : { ...given, open: (sealed: Sealed) => given.open(sealed, hash) };
  const limit = options.limit ?? LIMIT;
  const isShared = options.exclusive !== undefined;
  const exclusive = options.exclusive ?? ((work) => work());
  const { campaign } = store;
  const ledger = createLedger();
  const damaged: DamagedRow[] = [];
  const listeners = new Set<(added: readonly Entry[]) => void>();
  const keys = createKeys();
  let signer = options.signer;
  let position = 0;
  /** After a failed append the store may hold more than the ledger. */
  let isUncertain = false;

  const epoch = await store.epoch();
  takeIn(options.opened ?? [], (entry) => ({ ok: true, entry }));
  await look();
  let noted = readIdentity(await store.note(IDENTITY_NOTE));
  let identity = noted !== null && goesOn(noted) ? noted : begin(noted === null);

  function damage(): readonly string[] {
    return damaged.map((row) => row.hash);
  }

  function goesOn(one: Identity): boolean {
    return mayGoOn(one, epoch, damage(), signer?.key ?? null);
  }

  /** A device name not noted yet: that happens with its first entry, so that a full disk can still be read. */
  function begin(isFirst: boolean): Identity {
    const device = isFirst && options.device !== undefined ? options.device : newId(options);
    return { device, epoch, damage: damage(), key: null };
  }

  async function noteIdentity(): Promise<void> {
    if (identity === noted) return;
    await store.setNote(IDENTITY_NOTE, writeIdentity(identity));
    noted = identity;
  }

  /** Another tab may have begun a new device meanwhile: all tabs write one chain. */
  function adoptIdentity(note: string | null): void {
    const there = readIdentity(note);
    if (there === null || (there.device === noted?.device && there.key === noted.key)) return;
    if (goesOn(there)) {
      noted = there;
      identity = there;
    } else if (there.device === identity.device) identity = begin(false);
  }

  async function look(): Promise<readonly Entry[]> {
    const rows =
      store.loadAfter === undefined ? (await store.load()).slice(position) : await store.loadAfter(position);
    const added = takeIn(rows, rules.open);
    isUncertain = false;
    return tell(added);
  }

  /** The next rows of the store: good ones into the ledger, bad ones are named. */
  function takeIn<Row extends { readonly hash: string }>(
    rows: readonly Row[],
    openRow: (row: Row) => Opened,
  ): readonly Entry[] {
    const good: Entry[] = [];
    for (const row of rows) {
      const opened = openRow(row);
      if (!opened.ok) damaged.push({ position, hash: String(row?.hash), problem: opened.problem });
      else if (opened.entry.header.campaign === campaign) good.push(opened.entry);
      else
        damaged.push({
          position,
          hash: row.hash,
          problem: `belongs to campaign ${opened.entry.header.campaign}`,
        });
      position += 1;
    }
    return ledger.add(good);
  }

  function tell(added: readonly Entry[]): readonly Entry[] {
    // As microtasks: a listener's error must not look like a failed write, and every listener is told before
    // the one who wrote goes on.
    if (added.length > 0) for (const listener of listeners) void Promise.resolve(added).then(listener);
    return added;
  }

  async function run(group: readonly Job[]): Promise<void> {
    try {
      await exclusive(() => commit(group));
    } catch (error) {
      for (const job of group) job.reject(error);
    }
  }

  async function commit(waiting: readonly Job[]): Promise<void> {
    const isLooking = isShared || isUncertain || waiting.some((job) => job.do === 'refresh');
    const [seen, note] = await Promise.all([
      isLooking ? look() : [],
      isShared ? store.note(IDENTITY_NOTE) : null,
    ]);
    if (isShared) adoptIdentity(note);
    const group = makeDrafts(waiting);
    const fresh = new Map<string, Entry>();
    const find = (hash: string) => fresh.get(hash) ?? ledger.get(hash);
    const settle: (() => void)[] = [];

    for (const job of group) {
      if (job.do === 'refresh') settle.push(() => job.resolve(seen));
      if (job.do !== 'take') continue;
      const taken = accept(find, campaign, job.offered, rules);
      const beside = new Map(taken.entries.map((entry) => [entry.hash, entry]));
      const findAny = (hash: string) => beside.get(hash) ?? find(hash);
      const { entries, refused } = await rules.prove(taken, keys, findAny, options.verify);
      for (const entry of entries) fresh.set(entry.hash, entry);
      settle.push(() => job.resolve({ added: [...entries].sort(compareEntries), refused }));
    }
    const isCloned = [...fresh.values()].some((entry) => entry.header.device === identity.device);
    const isForked = (ledger.chain(identity.device)?.forkedAt ?? Infinity) !== Infinity;
    const isRenamed = group.some((job) => job.do === 'rename');
    // Its own entries coming from elsewhere: this store is a copy or was set back. Either way the next sequence
    // number may be taken.
    if (isCloned || isForked || isRenamed) identity = begin(false);

    const written = await writeAll(group, fresh);
    settle.push(...written.settle);
    if (isCloned || isRenamed || written.hasWritten) await noteIdentity();
    await append([...written.entries.values()]);
    for (const done of settle) done();
  }

  /** Who can't make their drafts is told so and left out. */
  function makeDrafts(waiting: readonly Job[]): readonly ReadyJob[] {
    return waiting.flatMap((job): readonly ReadyJob[] => {
      if (job.do !== 'write') return [job];
      try {
        return [{ ...job, drafts: typeof job.drafts === 'function' ? job.drafts() : job.drafts }];
      } catch (error) {
        job.reject(error);
        return [];
      }
    });
  }

  interface Written {
    /** What is stored with this append, by hash: what was taken, then what was written. */
    readonly entries: Map<string, Entry>;
    readonly settle: readonly (() => void)[];
    readonly hasWritten: boolean;
  }

  /** Where signing fails the same is said unsigned, under a new name: a name that signs goes on signing (J9). */
  async function writeAll(group: readonly ReadyJob[], taken: ReadonlyMap<string, Entry>): Promise<Written> {
    const isWriting = group.some((job) => job.do === 'write' && job.drafts.length > 0);
    const tip = rules.tip(ledger, identity.device);
    const stated = tip === undefined ? null : keys.upTo(tip, ledger.get);
    const own = signer?.key ?? null;
    if (isWriting && stated !== null && stated !== own) identity = begin(false);
    if (isWriting && identity.key !== own) identity = { ...identity, key: own };
    const written = sealAll(group, taken, stated === own ? null : own);
    if (signer === undefined || written.entries.size === taken.size) return written;
    const made = [...written.entries.values()].slice(taken.size);
    try {
      for (const entry of await signAll(made, signer, options.verify)) written.entries.set(entry.hash, entry);
      return written;
    } catch {
      signer = undefined;
      identity = begin(false);
      return sealAll(group, taken, null);
    }
  }

  function sealAll(
    group: readonly ReadyJob[],
    taken: ReadonlyMap<string, Entry>,
    key: string | null,
  ): Written {
    const entries = new Map(taken);
    const settle: (() => void)[] = [];
    const pen = createPen({
      ...options,
      rules,
      campaign,
      device: identity.device,
      ledger,
      clockOff: talk.clockOff(),
      beside: entries,
      ...(key === null ? {} : { key }),
    });
    for (const job of group) {
      if (job.do === 'rename') settle.push(() => job.resolve(identity.device));
      if (job.do !== 'write') continue;
      try {
        const sealed = pen.write(job.drafts);
        settle.push(() => job.resolve(sealed.map((entry) => entries.get(entry.hash) ?? entry)));
      } catch (error) {
        settle.push(() => job.reject(error));
      }
    }
    return { entries, settle, hasWritten: pen.hasWritten() };
  }

  async function append(entries: readonly Entry[]): Promise<void> {
    if (entries.length === 0) return;
    try {
      await store.append(entries.map((entry) => entry.sealed));
    } catch (error) {
      isUncertain = true;
      throw error;
    }
    const damage = new Set(damaged.map((row) => row.hash));
    // A store leaves a row alone whose hash is already there, so these brought no new position.
    position += entries.filter((entry) => !damage.has(entry.hash)).length;
    tell(ledger.add(entries));
  }

  const enqueue = createGroups(run, GROUP);
  const device = () => identity.device;
  const talk = await createTalk({ ...options, store, epoch, ledger, rules, limit, device, take });

  return {
    campaign,
    get device() {
      return identity.device;
    },
    ledger,
    damaged,
    get signs() {
      return signer !== undefined;
    },
    proof: (entry) => proofOf(entry, keys.before(entry, ledger.get), options.verify),
    write: (drafts) => new Promise((resolve, reject) => enqueue({ do: 'write', drafts, resolve, reject })),
    take,
    refresh: () => new Promise((resolve, reject) => enqueue({ do: 'refresh', resolve, reject })),
    newDevice: () => new Promise((resolve, reject) => enqueue({ do: 'rename', resolve, reject })),

    ...talk,

    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };

  function take(offered: readonly Sealed[]): Promise<Taken> {
    return new Promise((resolve, reject) => enqueue({ do: 'take', offered, resolve, reject }));
  }
}
