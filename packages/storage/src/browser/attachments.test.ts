import { createHash } from 'node:crypto';
import { openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openBrowserAttachments } from './attachments.ts';
import { lendIndexedDb, watchConnections } from './fake.suite.ts';

let giveBack: () => void;
beforeEach(() => {
  giveBack = lendIndexedDb();
});
afterEach(() => {
  vi.restoreAllMocks();
  giveBack();
});

const bytes = new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]);
const sha256 = createHash('sha256').update(bytes).digest('hex');

/** Second copies in memory, by name. */
const inMemory = (kept: Map<string, Uint8Array<ArrayBuffer>>) => async () => ({
  names: async () => [...kept.keys()],
  read: async (name: string) => kept.get(name)!,
  write: async (name: string, written: Uint8Array<ArrayBuffer>) => void kept.set(name, written),
  remove: async (name: string) => void kept.delete(name),
});

describe('files beside the journal in a browser', () => {
  it('put keeps bytes under their SHA-256, and get gives the same bytes, after opening anew too', async () => {
    const files = await openBrowserAttachments('cer');
    expect(await files.put(bytes)).toBe(sha256);
    expect(await (await openBrowserAttachments('cer')).get(sha256)).toEqual(bytes);
  });

  it('unsent lists a file until the camp computer has confirmed it', async () => {
    const files = await openBrowserAttachments('cer');
    await files.put(bytes);
    expect(await files.unsent()).toEqual([sha256]);
    await files.confirm(sha256);
    expect(await files.unsent()).toEqual([]);
    expect(await files.get(sha256)).toEqual(bytes);
  });

  it('B4: a database that the browser closed under a full disk is opened again for the next picture', async () => {
    const browser = watchConnections();
    const files = await openBrowserAttachments('cer');
    browser.letGo();
    expect(await files.put(bytes)).toBe(sha256);
    expect(await files.get(sha256)).toEqual(bytes);
    expect(browser.opened.length).toBe(2);
  });

  it('a file that the browser dropped comes back to be sent, until the camp computer has it', async () => {
    const kept = new Map<string, Uint8Array<ArrayBuffer>>();
    const open = () => openBrowserAttachments('cer', inMemory(kept));
    await (await open()).put(bytes);
    kept.set('f'.repeat(64), new Uint8Array([7]));
    giveBack();
    giveBack = lendIndexedDb();
    const files = await open();
    expect(await files.unsent()).toEqual([sha256]);
    expect(await files.get(sha256)).toEqual(bytes);
    await files.confirm(sha256);
    expect([...kept.keys()]).toEqual(['f'.repeat(64)]);
    expect(await (await open()).get(sha256)).toEqual(bytes);
  });

  it('killed before the second copy was written, it is written at the next start', async () => {
    const kept = new Map<string, Uint8Array<ArrayBuffer>>();
    await (await openBrowserAttachments('cer', async () => null)).put(bytes);
    await openBrowserAttachments('cer', inMemory(kept));
    expect(kept.get(sha256)).toEqual(bytes);
  });

  it('get gives nothing for bytes that are not what their name says', async () => {
    const files = await openBrowserAttachments('cer');
    await files.put(bytes);
    const db = await openDB('firnbook-cer-files');
    await db.put('files', new Uint8Array([1]), sha256);
    expect(await files.get(sha256)).toBeNull();
    expect(await files.get('0'.repeat(64))).toBeNull();
  });
});
