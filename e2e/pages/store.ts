import { type Draft, digestOf, newId, openReplica, type Replica } from '@firnbook/journal';
import { announce, exclusive, openBrowserAttachments, openBrowserStore } from '@firnbook/storage/browser';
import { storeCases, suiteCampaign } from '../../packages/storage/src/store.suite.ts';

/** What a test in Node may ask this page to do. Readings are invented. */
export interface StorePage {
  /** Cases of the conformance suite. */
  readonly titles: readonly string[];
  /** Runs one case in an empty browser store; what went wrong, or null. Load the page anew for each. */
  conformance(title: string): Promise<string | null>;
  /** Writes one entry after the other for ever; hands each id over as soon as it is acknowledged. */
  writeWithoutEnd(campaign: string, report: string, copies?: Copies): Promise<never>;
  write(campaign: string, count: number): Promise<void>;
  held(campaign: string, copies?: Copies): Promise<Held>;
  /** Keeps a file beside the journal; its SHA-256. */
  keepFile(campaign: string, text: string): Promise<string>;
  /** Files that wait to be sent, as text. */
  unsentFiles(campaign: string): Promise<readonly string[]>;
}

/** One is the control: the database alone, as it was before there were second copies. */
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

async function open(campaign: string, copies: Copies = 2): Promise<Replica & Pick<Held, 'putBack'>> {
  const store = await (copies === 2
    ? openBrowserStore(campaign)
    : openBrowserStore(campaign, async () => null));
  if (store.copies !== copies) throw new Error(`The store keeps ${store.copies} of ${copies} copies.`);
  const replica = await openReplica(store, { ...source, exclusive: (work) => exclusive(campaign, work) });
  return Object.assign(replica, { putBack: store.putBack });
}

function draft(): Draft {
  return {
    id: newId(source),
    kind: 'run.logged',
    version: 1,
    observedAt: '2031-01-17T09:40:00+01:00',
    by: 'person-ev',
    body: { hole: 'cer-a', readings: { from: '12,30 m', to: '13,22 m' } },
  };
}

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

  async write(campaign, count) {
    const replica = await open(campaign);
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
