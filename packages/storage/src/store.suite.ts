/**
 * What every Store keeps to (J2, J4), for every engine and the simulator's memory. The cases know no test
 * runner, so that a page in a real browser can run them too: each resolves, or throws with words.
 */
import { type Sealed, type Store, seal } from '@firnbook/journal';

export const suiteCampaign = '01930000-0000-7000-8000-0000000000ce';

/** One journal that nobody has opened yet. */
export interface Bench {
  /** Opens it: again after close, and once more beside an opener that is still there. */
  open(): Promise<Store>;
  /** Puts a copy of it through backup and restore, or null where the engine has none. */
  readonly restored: (() => Promise<Store>) | null;
}

export interface StoreCase {
  readonly title: string;
  /** A guard at the door of a real engine; the simulator's memory has none. */
  readonly guard?: true;
  readonly run: (bench: Bench) => Promise<void>;
}

/** A chain of sealed entries of one device; readings are invented. */
export function chainOf(count: number, options: ChainOptions = {}): readonly Sealed[] {
  const device = options.device ?? 'tablet-e';
  const chain: Sealed[] = [];
  for (let sequence = 1; sequence <= count; sequence += 1) {
    const draft = {
      id: `${device}-${String(sequence).padStart(6, '0')}`,
      kind: 'run.logged',
      version: 1,
      observedAt: '2031-01-17T09:40:00+01:00',
      by: 'ev',
      body: { hole: 'cer-a', number: String(sequence), from: `${sequence},30 m`, note: options.note ?? '' },
    };
    const place = {
      campaign: options.campaign ?? suiteCampaign,
      device,
      sequence,
      previous: chain.at(-1)?.hash ?? null,
      stamp: `${String(1_926_000_000_000 + sequence).padStart(15, '0')}-000000`,
      salt: sequence.toString(16).padStart(32, '0'),
    };
    chain.push(seal(draft, place).sealed);
  }
  return chain;
}

export interface ChainOptions {
  readonly device?: string;
  readonly campaign?: string;
  readonly note?: string;
}

export const storeCases: readonly StoreCase[] = [
  {
    title: 'load of a new journal gives nothing',
    run: async (bench) => {
      const store = await bench.open();
      same((await store.load()).length, 0, 'entries');
      same(store.campaign, suiteCampaign, 'campaign');
      await store.close();
    },
  },
  {
    title: 'J4: append then close and open again gives the same entries in the order of arrival',
    run: async (bench) => {
      const a = chainOf(3, { device: 'tablet-a' });
      const b = chainOf(2, { device: 'tablet-b' });
      const store = await bench.open();
      await store.append([b[0]!, a[0]!]);
      await store.append([a[1]!]);
      await store.append([b[1]!, a[2]!]);
      await store.close();
      const again = await bench.open();
      sameEntries(await again.load(), [b[0]!, a[0]!, a[1]!, b[1]!, a[2]!]);
      await again.close();
    },
  },
  {
    title: 'J2: append of an entry that is there changes nothing, in another batch and within one',
    run: async (bench) => {
      const chain = chainOf(3);
      const store = await bench.open();
      await store.append([chain[0]!, chain[1]!, chain[0]!]);
      await store.append([chain[1]!, chain[2]!, chain[0]!]);
      await store.append(chain);
      sameEntries(await store.load(), chain);
      await store.close();
    },
  },
  {
    title: 'J3: append of the same hash without its body leaves the body that is there',
    run: async (bench) => {
      const [entry] = chainOf(1);
      const store = await bench.open();
      await store.append([entry!]);
      await store.append([{ ...entry!, body: null }]);
      sameEntries(await store.load(), [entry!]);
      await store.close();
    },
  },
  {
    title: 'append keeps a withheld body withheld, and a signature as it is',
    run: async (bench) => {
      const [first, second] = chainOf(2);
      const kept = [
        { ...first!, body: null },
        { ...second!, signature: 'c2lnbmVk_-' },
      ];
      const store = await bench.open();
      await store.append(kept);
      await store.close();
      const again = await bench.open();
      sameEntries(await again.load(), kept);
      await again.close();
    },
  },
  {
    title: 'append keeps every character of a text',
    run: async (bench) => {
      const note = 'δ¹⁸O −31,5 ‰ · Łódź · e\u0301 ≠ é · 𐍈 · \u2028\t"\\ · \ufeff\u200f';
      const chain = chainOf(2, { note });
      const store = await bench.open();
      await store.append(chain);
      await store.close();
      const again = await bench.open();
      sameEntries(await again.load(), chain);
      await again.close();
    },
  },
  {
    title: 'append refuses a batch with an entry of another campaign and keeps none of it',
    guard: true,
    run: async (bench) => {
      const mine = chainOf(2);
      const other = chainOf(1, { campaign: 'another-campaign', device: 'tablet-x' });
      const store = await bench.open();
      await refused(store.append([mine[0]!, other[0]!, mine[1]!]), 'another campaign');
      same((await store.load()).length, 0, 'entries after the refusal');
      await store.append(mine);
      sameEntries(await store.load(), mine);
      await store.close();
    },
  },
  {
    title: 'append refuses what is no sealed entry and keeps none of the batch',
    guard: true,
    run: async (bench) => {
      const [good] = chainOf(1);
      const store = await bench.open();
      const broken: readonly Sealed[] = [
        { ...good!, hash: 'not a hash' },
        { ...good!, head: '{' },
        { ...good!, body: '\ud800' },
      ];
      for (const bad of broken) await refused(store.append([good!, bad]), 'broken entry');
      same((await store.load()).length, 0, 'entries after the refusals');
      await store.close();
    },
  },
  {
    title: 'append of 2,000 entries at once gives all of them back',
    run: async (bench) => {
      const chain = chainOf(2000);
      const store = await bench.open();
      await store.append(chain);
      await store.close();
      const again = await bench.open();
      sameEntries(await again.load(), chain);
      await again.close();
    },
  },
  {
    title: 'append of nothing resolves',
    run: async (bench) => {
      const store = await bench.open();
      await store.append([]);
      same((await store.load()).length, 0, 'entries');
      await store.close();
    },
  },
  {
    title: 'append from many callers at once keeps each batch whole and together',
    run: async (bench) => {
      const batches = Array.from({ length: 20 }, (_, index) => chainOf(3, { device: `tablet-${index}` }));
      const store = await bench.open();
      await Promise.all(batches.map((batch) => store.append(batch)));
      const loaded = (await store.load()).map((entry) => entry.hash);
      same(loaded.length, 60, 'entries');
      for (const batch of batches) {
        const place = loaded.indexOf(batch[0]!.hash);
        same(loaded.slice(place, place + 3).join(), batch.map((entry) => entry.hash).join(), 'one batch');
      }
      await store.close();
    },
  },
  {
    title: 'two openers of one journal see each other and lose nothing',
    run: async (bench) => {
      const a = chainOf(5, { device: 'tablet-a' });
      const b = chainOf(5, { device: 'tablet-b' });
      const first = await bench.open();
      const second = await bench.open();
      for (const [index, entry] of a.entries()) {
        await Promise.all([first.append([entry]), second.append([b[index]!, entry])]);
      }
      const seen = (await first.load()).map((entry) => entry.hash);
      same(
        [...seen].sort().join(),
        [...a, ...b]
          .map((entry) => entry.hash)
          .sort()
          .join(),
        'hashes',
      );
      same((await second.load()).map((entry) => entry.hash).join(), seen.join(), 'order for both');
      await first.close();
      await second.close();
    },
  },
  {
    title: 'I9: epoch stays over close and open',
    run: async (bench) => {
      const store = await bench.open();
      const epoch = await store.epoch();
      same(epoch.length > 8, true, 'a name for this life');
      await store.append(chainOf(1));
      await store.close();
      const again = await bench.open();
      same(await again.epoch(), epoch, 'epoch');
      await again.close();
    },
  },
  {
    title: 'I9: a restored journal has the entries, another epoch and no notes',
    run: async (bench) => {
      if (bench.restored === null) return;
      const chain = chainOf(4);
      const store = await bench.open();
      await store.append(chain);
      await store.setNote('device', 'tablet-e');
      const epoch = await store.epoch();
      await store.close();
      const again = await bench.restored();
      sameEntries(await again.load(), chain);
      same((await again.epoch()) === epoch, false, 'the same epoch after a restore');
      same(await again.note('device'), null, 'note of the life before');
      await again.close();
    },
  },
  {
    title: 'loadAfter gives what was stored after the first rows, also by another opener',
    run: async (bench) => {
      const chain = chainOf(5);
      const first = await bench.open();
      const second = await bench.open();
      await first.append(chain.slice(0, 2));
      await second.append(chain.slice(2));
      sameEntries(await loadAfter(first, 2), chain.slice(2));
      sameEntries(await loadAfter(first, 0), chain);
      sameEntries(await loadAfter(second, 5), []);
      await first.close();
      await second.close();
    },
  },
  {
    title: 'setNote keeps the last text of a name over close and open',
    run: async (bench) => {
      const store = await bench.open();
      same(await store.note('device'), null, 'note before it was set');
      await store.setNote('device', 'tablet-e');
      await store.setNote('peer', 'δ "{}"');
      await store.setNote('device', 'tablet-f');
      await store.close();
      const again = await bench.open();
      same(await again.note('device'), 'tablet-f', 'note');
      same(await again.note('peer'), 'δ "{}"', 'another note');
      same(await again.note('nobody'), null, 'a name never set');
      await again.close();
    },
  },
  {
    title: 'append after close rejects, and close twice is no trouble',
    guard: true,
    run: async (bench) => {
      const store = await bench.open();
      await store.close();
      await store.close();
      await refused(store.append(chainOf(1)), 'closed store');
    },
  },
];

async function loadAfter(store: Store, count: number): Promise<readonly Sealed[]> {
  return store.loadAfter === undefined ? (await store.load()).slice(count) : store.loadAfter(count);
}

function same(got: unknown, wanted: unknown, what: string): void {
  if (got !== wanted) throw new Error(`${what}: got ${String(got)}, wanted ${String(wanted)}`);
}

function sameEntries(got: readonly Sealed[], wanted: readonly Sealed[]): void {
  same(got.length, wanted.length, 'number of entries');
  for (const [index, entry] of wanted.entries()) {
    const there = got[index]!;
    for (const field of ['hash', 'head', 'body', 'signature'] as const)
      same(there[field], entry[field], `${field} of entry ${index + 1}`);
  }
}

async function refused(attempt: Promise<void>, what: string): Promise<void> {
  try {
    await attempt;
  } catch (error) {
    if (error instanceof Error && error.message !== '') return;
    throw new Error(`${what}: refused without words`);
  }
  throw new Error(`${what}: was not refused`);
}
