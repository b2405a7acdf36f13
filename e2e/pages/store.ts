import { type Draft, digestOf, newId, openReplica, type Replica, type Sealed } from '@firnbook/journal';
import { announce, exclusive, openBrowserAttachments, openBrowserStore } from '@firnbook/storage/browser';
import { createGuard, roomGuard } from '../../packages/storage/src/browser/guard.ts';
import { storeCases, suiteCampaign } from '../../packages/storage/src/store.suite.ts';

/** What a test in Node may ask this page to do. Readings are invented. */
export interface StorePage {
  /** Cases of the conformance suite. */
  readonly titles: readonly string[];
  /** Runs one case in an empty browser store; what went wrong, or null. Load the page anew for each. */
  conformance(title: string): Promise<string | null>;
  /** Writes one entry after the other for ever; hands each id over as soon as it is acknowledged. */
  writeWithoutEnd(campaign: string, report: string, copies?: Copies): Promise<never>;
  /**
   * A person who goes on whatever happens: the same entry is tried until it is taken, then the next, for ever. Tells of
   * each "saved <id>" or "refused". `size` is that of an entry's remark. The control has no guard and no second copy,
   * and opens its database anew when it was closed.
   */
  persist(campaign: string, report: string, size: number, isGuarded: boolean): Promise<never>;
  /** Everything that the person who goes on has in this page's memory, as a copy that is carried away would hold it. */
  carryAway(): readonly Sealed[];
  /** Takes such a copy in. @returns how many entries of it were not here */
  bringIn(campaign: string, copy: readonly Sealed[]): Promise<number>;
  /** The control of a power cut: a bare database, one number after the other for ever, flushed as it is told. */
  writeBare(name: string, report: string, durability: IDBTransactionDurability): Promise<never>;
  /** Numbers in a bare database. */
  heldBare(name: string): Promise<readonly number[]>;
  /** What the guard says of the room. */
  room(): { readonly room: string; readonly ballast: number };
  /** A person has made room. */
  madeRoom(): Promise<void>;
  /** One entry after the other. The control of two tabs takes no turns with the other. */
  write(campaign: string, count: number, takesTurns?: boolean): Promise<void>;
  held(campaign: string, copies?: Copies): Promise<Held>;
  /** Keeps a file beside the journal; its SHA-256. */
  keepFile(campaign: string, text: string): Promise<string>;
  /** Files that wait to be sent, as text. */
  unsentFiles(campaign: string): Promise<readonly string[]>;
}

/**
 * Two is the second copy alone, over a log of the database that nobody renews; one is the database alone, as it was
 * before there were second copies. Left out, a store is opened as the screens open it.
 */
export type Copies = 1 | 2;

export interface Held {
  readonly ids: readonly string[];
  /** "device sequence", in the order of the journal. */
  readonly places: readonly string[];
  readonly damaged: number;
  readonly forks: number;
  readonly orphans: number;
  readonly digest: string;
  /** Entries that came back from the second copy when the store was opened. */
  readonly putBack: number;
}

const source = {
  now: () => Date.now(),
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};

async function open(
  campaign: string,
  copies?: Copies,
  takesTurns = true,
): Promise<Replica & Pick<Held, 'putBack'>> {
  const asItIs = async () => undefined;
  const openFile = copies === 1 ? async () => null : undefined;
  const store = await (copies === undefined
    ? openBrowserStore(campaign)
    : openBrowserStore(campaign, openFile, roomGuard(), asItIs));
  if (store.copies !== (copies ?? 2)) throw new Error(`The store keeps ${store.copies} copies.`);
  const replica = await openReplica(store, {
    ...source,
    exclusive: (work) => (takesTurns ? exclusive(campaign, work) : work()),
  });
  return Object.assign(replica, { putBack: store.putBack });
}

const wait = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

async function openUnguarded(campaign: string): Promise<Replica> {
  const store = await openBrowserStore(
    campaign,
    async () => null,
    createGuard(null),
    async () => undefined,
  );
  return openReplica(store, { ...source, exclusive: (work) => exclusive(campaign, work) });
}

function draft(remark = ''): Draft {
  return {
    id: newId(source),
    kind: 'run.logged',
    version: 1,
    observedAt: '2031-01-17T09:40:00+01:00',
    by: 'person-ev',
    body: { hole: 'cer-a', readings: { from: '12,30 m', to: '13,22 m' }, remark },
  };
}

/** What the person who goes on writes with. */
let atWork: Replica | null = null;

const page: StorePage = {
  titles: storeCases.map((one) => one.title),

  async conformance(title) {
    await erase(`firnbook-${suiteCampaign}`);
    await eraseFiles();
    try {
      await storeCases
        .find((one) => one.title === title)!
        .run({ open: () => openBrowserStore(suiteCampaign), restored: null });
      return null;
    } catch (error) {
      return error instanceof Error ? (error.stack ?? error.message) : String(error);
    }
  },

  async writeWithoutEnd(campaign, report, copies) {
    const replica = await open(campaign, copies);
    const tell = (globalThis as unknown as Record<string, (id: string) => Promise<void>>)[report]!;
    for (;;) {
      const [entry] = await replica.write([draft()]);
      void tell(entry!.header.id);
    }
  },

  async persist(campaign, report, size, isGuarded) {
    const tell = (globalThis as unknown as Record<string, (line: string) => Promise<void>>)[report]!;
    const begin = () => (isGuarded ? open(campaign) : openUnguarded(campaign));
    let replica = await begin();
    atWork = replica;
    for (;;) {
      const letters = crypto.getRandomValues(new Uint8Array(Math.ceil(size / 2)));
      const next = draft([...letters].map((byte) => byte.toString(16).padStart(2, '0')).join(''));
      for (let isSaved = false; !isSaved; ) {
        try {
          await replica.write([next]);
          isSaved = true;
          await tell(`saved ${next.id}`);
        } catch (error) {
          await tell(`refused ${error instanceof Error ? error.message : String(error)}`);
          await wait(100);
          if (!isGuarded) replica = await begin().catch(() => replica);
        }
      }
    }
  },

  carryAway: () => (atWork?.ledger.entries() ?? []).map(({ sealed }) => sealed),

  async bringIn(campaign, copy) {
    const store = await openBrowserStore(campaign);
    const before = (await store.load()).length;
    await store.append(copy);
    const after = (await store.load()).length;
    await store.close();
    return after - before;
  },

  async writeBare(name, report, durability) {
    const tell = (globalThis as unknown as Record<string, (number: number) => Promise<void>>)[report]!;
    const db = await openBare(name);
    for (let number = (await numbersIn(db)).length; ; number += 1) {
      const tx = db.transaction('numbers', 'readwrite', { durability });
      tx.objectStore('numbers').put(number, number);
      await new Promise((resolve, reject) => {
        tx.oncomplete = resolve;
        tx.onabort = () => reject(tx.error);
      });
      void tell(number);
    }
  },

  heldBare: async (name) => numbersIn(await openBare(name)),

  room() {
    const { room, ballast } = roomGuard();
    return { room, ballast };
  },

  madeRoom: () => roomGuard().lay(),

  async write(campaign, count, takesTurns) {
    const replica = await open(campaign, undefined, takesTurns);
    for (let done = 0; done < count; done += 1) {
      await replica.write([draft()]);
      announce(campaign);
    }
  },

  async held(campaign, copies) {
    const replica = await open(campaign, copies);
    const entries = replica.ledger.entries();
    return {
      ids: entries.map((entry) => entry.header.id),
      places: entries.map((entry) => `${entry.header.device} ${entry.header.sequence}`),
      damaged: replica.damaged.length,
      forks: replica.ledger.forks().length,
      orphans: replica.ledger.orphans().length,
      digest: digestOf(entries.map((entry) => entry.hash)),
      putBack: replica.putBack,
    };
  },

  async keepFile(campaign, text) {
    return (await openBrowserAttachments(campaign)).put(new TextEncoder().encode(text));
  },

  async unsentFiles(campaign) {
    const files = await openBrowserAttachments(campaign);
    const names = await files.unsent();
    return Promise.all(names.map(async (name) => new TextDecoder().decode((await files.get(name))!)));
  },
};

function openBare(name: string): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    request.onupgradeneeded = () => request.result.createObjectStore('numbers');
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function numbersIn(db: IDBDatabase): Promise<readonly number[]> {
  return new Promise((resolve, reject) => {
    const request = db.transaction('numbers').objectStore('numbers').getAll();
    request.onsuccess = () => resolve(request.result as number[]);
    request.onerror = () => reject(request.error);
  });
}

function erase(name: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase(name);
    request.onsuccess = () => resolve();
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error(`A case left ${name} open.`));
  });
}

async function eraseFiles(): Promise<void> {
  const folder = await navigator.storage.getDirectory();
  // The DOM's types do not know yet that a folder can be walked.
  for await (const name of (folder as unknown as { keys(): AsyncIterable<string> }).keys())
    await folder.removeEntry(name);
}

Object.assign(globalThis, { storePage: page });
