import { openDB, unwrap } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { lendIndexedDb } from './fake.suite.ts';
import { lendFiles } from './fake-files.suite.ts';
import { createGuard, type Guard } from './guard.ts';
import { renewLog } from './renew-log.ts';
import { openBrowserStore } from './store.ts';

describe('a new log behind the one that a kill may have torn', () => {
  let giveBack: () => void;
  beforeEach(() => {
    giveBack = lendIndexedDb();
  });
  afterEach(() => {
    vi.restoreAllMocks();
    giveBack();
  });

  it('more is written than LevelDB gathers before it begins a new log (4 MB), and none of it stays', async () => {
    const db = await openDB('x', 1, {
      upgrade: (made) => void made.createObjectStore('notes'),
    });
    await db.put('notes', 'kept', 'a note');
    let bytes = 0;
    const put = IDBObjectStore.prototype.put;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, value, key) {
      bytes += String(value).length;
      return put.call(this, value, key);
    });
    await renewLog(unwrap(db), 'x');
    expect(bytes).toBeGreaterThan(4 * 2 ** 20);
    expect(await db.getAllKeys('notes')).toEqual(['a note']);
  });

  it('the first append waits for it', async () => {
    const order: string[] = [];
    let finish: () => void = () => undefined;
    const renew = () => new Promise<void>((resolve) => (finish = resolve)).then(() => void order.push('log'));
    const store = await openBrowserStore(suiteCampaign, lendFiles().open, createGuard(null), renew);
    const appended = store.append(chainOf(1)).then(() => order.push('entry'));
    await new Promise((resolve) => setTimeout(resolve, 30));
    expect(order).toEqual([]);
    finish();
    await appended;
    expect(order).toEqual(['log', 'entry']);
  });

  it('where it fails the guard is told and entries are kept all the same; without room it is not begun', async () => {
    const told: string[] = [];
    const guard = (hasRoom: boolean): Guard => ({
      ...createGuard(null),
      hasRoom: async () => hasRoom,
      failed: async () => void told.push('failed'),
    });
    const renew = async () => {
      told.push('begun');
      throw new Error('no');
    };
    const store = await openBrowserStore(suiteCampaign, lendFiles().open, guard(true), renew);
    await store.append(chainOf(1));
    expect(told).toEqual(['begun', 'failed']);
    await (await openBrowserStore('another', lendFiles().open, guard(false), renew)).load();
    expect(told).toEqual(['begun', 'failed']);
    expect((await store.load()).length).toBe(1);
  });
});
