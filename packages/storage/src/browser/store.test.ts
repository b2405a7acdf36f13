import type { Sealed } from '@firnbook/journal';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { chainOf, storeCases, suiteCampaign } from '../store.suite.ts';
import { lendIndexedDb } from './fake.suite.ts';
import { openBrowserStore } from './store.ts';

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
