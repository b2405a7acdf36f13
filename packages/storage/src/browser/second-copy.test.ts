import { openReplica } from '@firnbook/journal';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { lendIndexedDb } from './fake.suite.ts';
import { lendFiles } from './fake-files.suite.ts';
import { type BrowserStore, openBrowserStore } from './store.ts';

const source = {
  now: () => Date.parse('2031-01-17T09:40:00Z'),
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};
let id = 0;
const draft = () => ({
  id: `run-${(id += 1)}`,
  kind: 'run.logged',
  version: 1,
  observedAt: '2031-01-17T09:40:00+01:00',
  by: 'ev',
  body: { hole: 'cer-a', from: '12,30 m' },
});

describe('the second copy', () => {
  let giveBack: () => void;
  let disk: ReturnType<typeof lendFiles>;
  const name = `firnbook-${suiteCampaign}.jsonl`;
  const open = () => openBrowserStore(suiteCampaign, disk.open);
  const hashes = async (store: BrowserStore) => (await store.load()).map((sealed) => sealed.hash);
  /** What Chromium does with a database that it calls damaged. */
  const dropDatabases = () => Object.assign(globalThis, { indexedDB: new IDBFactory() });

  beforeEach(() => {
    giveBack = lendIndexedDb();
    disk = lendFiles();
  });
  afterEach(() => giveBack());

  it('J4: a database that was dropped comes back whole, once and again', async () => {
    const chain = chainOf(25);
    let held = 0;
    for (const until of [7, 8, 20, 25]) {
      const store = await open();
      expect(store.putBack).toBe(held);
      expect(await hashes(store)).toEqual(chain.slice(0, held).map((sealed) => sealed.hash));
      await store.append(chain.slice(held, until));
      held = until;
      await store.close();
      dropDatabases();
    }
    expect((await open()).putBack).toBe(25);
    expect((await open()).putBack).toBe(0);
  });

  it('control: without it, a database that was dropped is empty', async () => {
    const alone = () => openBrowserStore(suiteCampaign, async () => null);
    const store = await alone();
    await store.append(chainOf(25));
    dropDatabases();
    const after = await alone();
    expect([after.copies, after.putBack, (await after.load()).length]).toEqual([1, 0, 0]);
  });

  it('I5: who writes after a drop has a new name, and no number is used twice', async () => {
    const first = await openReplica(await open(), source);
    await first.write([draft(), draft()]);
    dropDatabases();
    const store = await open();
    const second = await openReplica(store, source);
    expect(second.ledger.size).toBe(2);
    const [entry] = await second.write([draft()]);
    expect(entry!.header.device).not.toBe(first.device);
    expect(entry!.header.sequence).toBe(1);
    const places = second.ledger.entries().map(({ header }) => `${header.device} ${header.sequence}`);
    expect(new Set(places).size).toBe(3);
    expect(second.ledger.forks()).toEqual([]);
  });

  it('killed between the commit and the file, the entry is followed at the next start', async () => {
    const chain = chainOf(5);
    await (await open()).append(chain.slice(0, 3));
    await (await openBrowserStore(suiteCampaign, async () => null)).append(chain.slice(3));
    await open();
    dropDatabases();
    expect(await hashes(await open())).toEqual(chain.map((sealed) => sealed.hash));
  });

  it('killed while it puts back, it begins again', async () => {
    const chain = chainOf(6);
    await (await open()).append(chain);
    dropDatabases();
    await (await openBrowserStore(suiteCampaign, async () => null)).append(chain.slice(0, 2));
    const store = await open();
    expect([store.putBack, (await store.load()).length]).toEqual([4, 6]);
  });

  it('a database that was set back gets its end again and keeps its name', async () => {
    const chain = chainOf(6);
    const store = await open();
    await store.append(chain);
    const epoch = await store.epoch();
    await store.close();
    await takeAway(5, 6);
    const again = await open();
    expect([again.putBack, (await again.load()).length, await again.epoch()]).toEqual([2, 6, epoch]);
  });

  it('a journal from before there were second copies gets one', async () => {
    const chain = chainOf(4);
    await (await openBrowserStore(suiteCampaign, async () => null)).append(chain);
    expect((await open()).copies).toBe(2);
    dropDatabases();
    expect((await open()).putBack).toBe(4);
  });

  it('two tabs that write in turn leave one file with every entry', async () => {
    const [a, b] = [await open(), await open()];
    const one = chainOf(10);
    const two = chainOf(10, { device: 'tablet-f' });
    await Promise.all(one.flatMap((sealed, at) => [a.append([sealed]), b.append([two[at]!])]));
    dropDatabases();
    expect((await open()).putBack).toBe(20);
  });

  it('a full disk under the second copy takes the tick away', async () => {
    const store = await open();
    await store.append(chainOf(1));
    disk.files.get(name)!.room = disk.files.get(name)!.getSize() + 10;
    await expect(store.append(chainOf(2))).rejects.toMatchObject({ trouble: 'disk full' });
  });

  it('a spoilt line costs that entry and says so by its gap; the rest comes back', async () => {
    await (await open()).append(chainOf(3));
    const file = disk.files.get(name)!;
    const text = new TextDecoder().decode(file.bytes).split('\n');
    text[1] = text[1]!.slice(1);
    file.bytes = new TextEncoder().encode(text.join('\n'));
    dropDatabases();
    expect((await open()).putBack).toBe(2);
  });
});

function takeAway(from: number, to: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const opening = indexedDB.open(`firnbook-${suiteCampaign}`);
    opening.onsuccess = () => {
      const tx = opening.result.transaction('entries', 'readwrite');
      tx.objectStore('entries').delete(IDBKeyRange.bound(from, to));
      tx.oncomplete = () => {
        opening.result.close();
        resolve();
      };
      tx.onerror = () => reject(tx.error);
    };
  });
}
