import {
  createKeys,
  createMemoryDisk,
  createMemoryStore,
  haveOf,
  newId,
  openReplica,
  type Signer,
} from '@firnbook/journal';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { startDeviceList } from './device-list.ts';
import type { PairedDevice } from './gate.ts';
import { watchRevoked } from './revoked-origin.ts';

const tablet: PairedDevice = {
  id: 'p-3',
  name: 'tablet 3',
  pairedAt: '2031-01-02T08:00:00.000Z',
  renewedAt: null,
  lastSeen: '2031-01-17T09:40:00.000Z',
  revokedAt: null,
  publicKey: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
  otherKey: null,
  held: null,
};

let kept: Map<string, string>;
beforeEach(() => {
  kept = new Map();
  vi.stubGlobal('localStorage', {
    setItem: (name: string, text: string) => kept.set(name, text),
    getItem: (name: string) => kept.get(name) ?? null,
  });
});
afterEach(() => vi.unstubAllGlobals());

describe('the list of devices on a tablet', () => {
  it('is remembered for when the camp computer is away, and tells of changes alone', async () => {
    let now = 0;
    let told: readonly PairedDevice[] = [tablet];
    const list = startDeviceList(
      async () => told,
      () => now,
    );
    let changes = 0;
    list.subscribe(() => {
      changes += 1;
    });
    await list.ask();
    now += 60_000;
    told = [{ ...tablet, lastSeen: '2031-01-17T09:59:00.000Z' }];
    await list.ask();
    expect([changes, list.current()[0]?.name]).toEqual([1, 'tablet 3']);
    now += 60_000;
    told = [{ ...tablet, revokedAt: '2031-01-17T10:00:00.000Z' }];
    await list.ask();
    expect(changes).toBe(2);

    const offline = startDeviceList(async () => Promise.reject(new Error('away')));
    await offline.ask();
    expect(offline.current()).toMatchObject([{ name: 'tablet 3', revokedAt: '2031-01-17T10:00:00.000Z' }]);
  });

  it('is asked for at most every half minute, and at once again where no answer came', async () => {
    let now = 0;
    let asked = 0;
    let isUp = true;
    const list = startDeviceList(
      async () => {
        asked += 1;
        if (!isUp) throw new Error('away');
        return [];
      },
      () => now,
    );
    await list.ask();
    await list.ask();
    expect(asked).toBe(1);
    now += 30_000;
    isUp = false;
    await list.ask();
    await list.ask();
    expect(asked).toBe(3);
  });

  it('something else under its name costs the marks and nothing more', () => {
    for (const text of ['{', '7', '[null, {"id": 4}]', '{"length": 2}']) {
      kept.set('firnbook.paired', text);
      expect(startDeviceList(async () => []).current()).toEqual([]);
    }
  });
});

describe('watchRevoked', () => {
  it('marks the entries of a revoked device by the list that stands now', async () => {
    const signer: Signer = { key: tablet.publicKey!, sign: () => `${'x'.repeat(85)}A` };
    const source = {
      now: () => Date.UTC(2031, 0, 17, 9, 0),
      randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
    };
    const store = createMemoryStore('ceredin', createMemoryDisk('life'));
    const replica = await openReplica(store, { ...source, signer });
    const draft = () => ({
      id: newId(source),
      kind: 'run.logged',
      version: 1,
      observedAt: '2031-01-17T10:00:00+01:00',
      by: 'ev',
      body: {},
    });
    const [before] = await replica.write([draft()]);
    const held = { ceredin: haveOf(replica.ledger) };
    const [after] = await replica.write([draft()]);
    expect(createKeys().upTo(after!, replica.ledger.get)).toBe(tablet.publicKey);

    let list: readonly PairedDevice[] = [tablet];
    const revokedBy = watchRevoked('ceredin', replica.ledger, { current: () => list });
    expect([before, after].map((entry) => revokedBy(entry!))).toEqual([null, null]);
    const at = '2031-01-17T09:30:00.000Z';
    list = [{ ...tablet, revokedAt: at, held }];
    expect([before, after].map((entry) => revokedBy(entry!))).toEqual([
      { name: 'tablet 3', at, since: 'before' },
      { name: 'tablet 3', at, since: 'came after' },
    ]);
    // nothing of this campaign was here when it was revoked
    list = [{ ...tablet, revokedAt: at, held: {} }];
    expect(revokedBy(before!)?.since).toBe('came after');
  });
});
