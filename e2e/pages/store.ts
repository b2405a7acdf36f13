import { type Draft, digestOf, newId, openReplica, type Replica } from '@firnbook/journal';
import { announce, exclusive, openBrowserStore } from '@firnbook/storage/browser';
import { storeCases, suiteCampaign } from '../../packages/storage/src/store.suite.ts';

/** What a test in Node may ask this page to do. Readings are invented. */
export interface StorePage {
  /** Cases of the conformance suite. */
  readonly titles: readonly string[];
  /** Runs one case in an empty browser store; what went wrong, or null. Load the page anew for each. */
  conformance(title: string): Promise<string | null>;
  /** Writes one entry after the other for ever; hands each id over as soon as it is acknowledged. */
  writeWithoutEnd(campaign: string, report: string): Promise<never>;
  write(campaign: string, count: number): Promise<void>;
  held(campaign: string): Promise<Held>;
}

interface Held {
  readonly ids: readonly string[];
  /** "device sequence", in the order of the journal. */
  readonly places: readonly string[];
  readonly damaged: number;
  readonly forks: number;
  readonly orphans: number;
  readonly digest: string;
}

const source = {
  now: () => Date.now(),
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};

async function open(campaign: string): Promise<Replica> {
  const store = await openBrowserStore(campaign);
  return openReplica(store, { ...source, exclusive: (work) => exclusive(campaign, work) });
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
    try {
      await storeCases
        .find((one) => one.title === title)!
        .run({ open: () => openBrowserStore(suiteCampaign), restored: null });
      return null;
    } catch (error) {
      return error instanceof Error ? (error.stack ?? error.message) : String(error);
    }
  },

  async writeWithoutEnd(campaign, report) {
    const replica = await open(campaign);
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

  async held(campaign) {
    const replica = await open(campaign);
    const entries = replica.ledger.entries();
    return {
      ids: entries.map((entry) => entry.header.id),
      places: entries.map((entry) => `${entry.header.device} ${entry.header.sequence}`),
      damaged: replica.damaged.length,
      forks: replica.ledger.forks().length,
      orphans: replica.ledger.orphans().length,
      digest: digestOf(entries.map((entry) => entry.hash)),
    };
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

Object.assign(globalThis, { storePage: page });
