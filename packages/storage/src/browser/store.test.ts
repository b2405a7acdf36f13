import type { Sealed } from '@firnbook/journal';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { chainOf, storeCases, suiteCampaign } from '../store.suite.ts';
import { trouble } from '../trouble.ts';
import { lendIndexedDb, watchConnections } from './fake.suite.ts';
import { lendFiles } from './fake-files.suite.ts';
import { createGuard, type Guard } from './guard.ts';
import { type BrowserStore, openBrowserStore } from './store.ts';

describe('Browser store: conformance', () => {
  let giveBack: () => void;
  beforeEach(() => {
    giveBack = lendIndexedDb();
  });
  afterEach(() => giveBack());
  for (const { title, run } of storeCases)
    it(title, () => run({ open: () => openBrowserStore(suiteCampaign), restored: null }));
});

describe('Browser store: reading back', () => {
  let giveBack: () => void;
  beforeEach(() => {
    giveBack = lendIndexedDb();
  });
  afterEach(() => {
    vi.restoreAllMocks();
    giveBack();
  });
  const alone = () => openBrowserStore(suiteCampaign, async () => null);
  const signed = { ...chainOf(1)[0]!, signature: 'c2lnbmVk' };

  /** A browser that keeps one field otherwise than it was given. */
  const damage = (field: keyof Sealed) => {
    const add = IDBObjectStore.prototype.add;
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, row, key) {
      return add.call(this, { ...row, [field]: `${row[field]}.` }, key);
    });
  };

  for (const field of ['hash', 'head', 'body', 'signature'] as const)
    it(`B8: no tick for an entry whose ${field} did not read back as it was written`, async () => {
      const store = await alone();
      damage(field);
      await expect(store.append([signed])).rejects.toMatchObject({
        trouble: 'unknown fate',
        what: expect.stringContaining('did not read back'),
      });
    });

  it('control: as it was written it gets its tick; once more, with another signature or none, it changes nothing', async () => {
    const store = await alone();
    await store.append([signed]);
    await store.append([{ ...signed, signature: 'b3RoZXI' }]);
    await store.append([{ ...signed, signature: null }, signed]);
    expect(await store.load()).toEqual([signed]);
  });
});

describe('Browser store: a database that the browser closes', () => {
  let giveBack: () => void;
  let browser: ReturnType<typeof watchConnections>;
  beforeEach(() => {
    giveBack = lendIndexedDb();
    browser = watchConnections();
    room.is = true;
  });
  afterEach(() => {
    vi.restoreAllMocks();
    giveBack();
  });
  const chain = chainOf(4);
  const disk = lendFiles();
  const room = { is: true };
  /** Says whether there is room, and nothing else. */
  const guard: Guard = {
    ...createGuard(null),
    admit: async () => {
      if (!room.is) throw trouble('disk full', 'No room', 'disk', 'Free some.');
    },
  };
  const open = () => openBrowserStore(suiteCampaign, disk.open, guard);
  const hashes = async (store: BrowserStore) => (await store.load()).map(({ hash }) => hash);

  it('B4: is opened again once there is room, never before, and holds what it held', async () => {
    const store = await open();
    await store.append(chain.slice(0, 2));
    room.is = false;
    browser.letGo();
    await expect(store.append([chain[2]!])).rejects.toMatchObject({ trouble: 'disk full' });
    await expect(store.load()).rejects.toMatchObject({ trouble: 'disk full' });
    expect(browser.opened.length).toBe(1);
    room.is = true;
    await Promise.all([store.append(chain.slice(2)), store.note('heard')]);
    expect(browser.opened.length).toBe(2);
    expect(await hashes(store)).toEqual(chain.map(({ hash }) => hash));
    expect((await open()).putBack).toBe(0);
  });

  it('B4: where the browser dropped it, and the files with it, it holds all that the page knew before it asks for a new opening', async () => {
    const store = await open();
    await store.append(chain.slice(0, 1));
    await store.close();
    const read = await openBrowserStore(suiteCampaign, lendFiles().open, guard);
    await read.load();
    await read.append(chain.slice(1, 2));
    browser.letGo();
    Object.assign(globalThis, { indexedDB: new IDBFactory() });
    room.is = false;
    await expect(read.append([chain[2]!])).rejects.toMatchObject({ trouble: 'disk full' });
    room.is = true;
    await expect(read.append([chain[2]!])).rejects.toMatchObject({ trouble: 'closed' });
    const again = await openBrowserStore(suiteCampaign, lendFiles().open, guard);
    await again.append(chain.slice(2));
    expect(await hashes(again)).toEqual(chain.map(({ hash }) => hash));
  });

  it('is not written to where it was set back, but gets its end again', async () => {
    const store = await openBrowserStore(suiteCampaign, lendFiles().open, guard);
    await store.append(chain.slice(0, 3));
    browser.letGo();
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open(`firnbook-${suiteCampaign}`);
      request.onsuccess = () => resolve(request.result);
    });
    db.transaction('entries', 'readwrite').objectStore('entries').delete(3);
    db.close();
    await expect(store.append([chain[3]!])).rejects.toMatchObject({ trouble: 'closed' });
    const again = await openBrowserStore(suiteCampaign, lendFiles().open, guard);
    expect(await hashes(again)).toEqual(chain.slice(0, 3).map(({ hash }) => hash));
  });

  it('one that we closed ourselves stays closed', async () => {
    const store = await open();
    await store.close();
    await expect(store.append([chain[0]!])).rejects.toMatchObject({ trouble: 'closed' });
    expect(browser.opened.length).toBe(1);
  });
});
