import { describe, expect, it } from 'vitest';
import { digest } from './digest.ts';
import { copyMemoryDisk, createMemoryDisk, createMemoryStore, type MemoryFault } from './memory-store.ts';
import { openReplica } from './replica.ts';
import { inventedDraft } from './simulation/invented.ts';
import { exchange, pair, source } from './simulation/invented-pair.ts';

describe('write', () => {
  it('gives entries that follow each other and are in the store when it resolves', async () => {
    const disk = createMemoryDisk('e');
    const replica = await openReplica(createMemoryStore('c', disk), { ...source(1), device: 'd' });
    const [one, two] = await replica.write([inventedDraft('a'), inventedDraft('b')]);
    const [three] = await replica.write([inventedDraft('c')]);
    expect(disk.rows.map((row) => row.hash)).toEqual([one!.hash, two!.hash, three!.hash]);
    expect([one, two, three].map((entry) => entry!.header.sequence)).toEqual([1, 2, 3]);
    expect(three!.header.previous).toBe(two!.hash);
    expect(replica.ledger.size).toBe(3);
  });

  it('J2: the same draft written twice is one entry', async () => {
    const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
    const [first] = await replica.write([inventedDraft('a')]);
    const [again] = await replica.write([inventedDraft('a')]);
    expect(again).toBe(first);
    expect(replica.ledger.size).toBe(1);
  });

  it('I2: another body under an id that is taken is refused and nothing is written', async () => {
    const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
    await replica.write([inventedDraft('a')]);
    await expect(replica.write([inventedDraft('b'), inventedDraft('a', { body: { x: 1 } })])).rejects.toThrow(
      /already names/,
    );
    expect(replica.ledger.size).toBe(1);
  });

  it('a draft that cannot be sealed rejects alone; the write beside it succeeds', async () => {
    const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
    const bad = replica.write([inventedDraft('a'), inventedDraft('b', { body: { note: 'half \ud800' } })]);
    const good = replica.write([inventedDraft('c')]);
    await expect(bad).rejects.toThrow(/note.*lone surrogate/);
    expect((await good)[0]!.header.sequence).toBe(1);
    expect(replica.ledger.size).toBe(1);
  });

  it.each(['refused', 'kept'] as const)(
    'J4: after an append that was %s the write rejects and can be repeated',
    async (fault) => {
      const disk = createMemoryDisk('e');
      let next: MemoryFault | null = null;
      const store = createMemoryStore('c', disk, { append: () => next });
      const replica = await openReplica(store, { ...source(1), device: 'd' });
      await replica.write([inventedDraft('a')]);
      next = fault;
      await expect(replica.write([inventedDraft('b')])).rejects.toThrow(/told to fail/);
      expect(replica.ledger.size).toBe(1);
      next = null;
      const [b, c] = await replica.write([inventedDraft('b'), inventedDraft('c')]);
      expect(b!.header.sequence).toBe(2);
      expect(c!.header.sequence).toBe(3);
      expect(disk.rows).toHaveLength(3);
    },
  );

  it('many writes at once share appends and keep one chain', async () => {
    const disk = createMemoryDisk('e');
    let appends = 0;
    const store = createMemoryStore('c', disk, {
      append: () => {
        appends += 1;
        return null;
      },
    });
    const replica = await openReplica(store, source(1));
    await Promise.all(
      Array.from({ length: 50 }, (_, index) => replica.write([inventedDraft(`id-${index}`)])),
    );
    expect(replica.ledger.chain(replica.device)!.levels).toHaveLength(50);
    expect(appends).toBeLessThan(5);
  });

  it('two tabs over one store write one chain', async () => {
    const disk = createMemoryDisk('e');
    let lock: Promise<unknown> = Promise.resolve();
    const exclusive = <T>(work: () => Promise<T>): Promise<T> => {
      const mine = lock.then(work, work);
      lock = mine.catch(() => undefined);
      return mine;
    };
    const tabs = await Promise.all(
      [1, 2].map((seed) => openReplica(createMemoryStore('c', disk), { ...source(seed), exclusive })),
    );
    await Promise.all(
      Array.from({ length: 20 }, (_, index) => tabs[index % 2]!.write([inventedDraft(`id-${index}`)])),
    );
    for (const tab of tabs) await tab.refresh();
    expect(tabs[0]!.device).toBe(tabs[1]!.device);
    expect(digest(tabs[0]!.ledger)).toBe(digest(tabs[1]!.ledger));
    expect(tabs[0]!.ledger.chain(tabs[0]!.device)!.levels.map((level) => level.length)).toEqual(
      Array(20).fill(1),
    );
    await tabs[0]!.newDevice();
    const [entry] = await tabs[1]!.write([inventedDraft('after')]);
    expect(entry!.header.device).toBe(tabs[0]!.device);
  });
});

describe('write with a function', () => {
  /** Two tabs of one device; the lock is theirs alone. */
  const openTabs = async () => {
    const disk = createMemoryDisk('e');
    let lock: Promise<unknown> = Promise.resolve();
    const exclusive = <T>(work: () => Promise<T>): Promise<T> => {
      const mine = lock.then(work, work);
      lock = mine.catch(() => undefined);
      return mine;
    };
    const open = (seed: number) =>
      openReplica(createMemoryStore('c', disk), { ...source(seed), device: 'd', exclusive });
    return [await open(1), await open(2)] as const;
  };

  it('of two tabs that write at once, one sees what the other wrote, and was told of it before', async () => {
    const tabs = await openTabs();
    const told = tabs.map(() => 0);
    for (const [at, tab] of tabs.entries()) tab.subscribe((added) => void (told[at]! += added.length));
    const seen: number[][] = [];
    const next = (at: number) => () => {
      const held = tabs[at]!.ledger.size;
      seen.push([held, told[at]!]);
      return [inventedDraft(`number-${held + 1}`)];
    };
    await Promise.all([tabs[0].write(next(0)), tabs[1].write(next(1))]);
    expect(seen).toEqual([
      [0, 0],
      [1, 1],
    ]);
  });

  it('control: drafts that were made before, each by what its own tab held, claim the same', async () => {
    const tabs = await openTabs();
    const next = (at: number) => [
      inventedDraft(`number-${tabs[at]!.ledger.size + 1}`, { body: { tab: at } }),
    ];
    const both = await Promise.allSettled([tabs[0].write(next(0)), tabs[1].write(next(1))]);
    expect(both.map(({ status }) => status)).toEqual(['fulfilled', 'rejected']);
  });

  it('a function that throws or has nothing to say writes nothing, and the write beside it succeeds', async () => {
    const [tab] = await openTabs();
    const bad = tab.write(() => {
      throw new Error('no such hole');
    });
    const none = tab.write(() => []);
    const good = tab.write([inventedDraft('a')]);
    await expect(bad).rejects.toThrow('no such hole');
    expect([await none, (await good).length, tab.ledger.size]).toEqual([[], 1, 1]);
  });
});

describe('openReplica', () => {
  it('reports a damaged row, reads the rest, and writes under a new device', async () => {
    const disk = createMemoryDisk('e');
    const first = await openReplica(createMemoryStore('c', disk), { ...source(1), device: 'd' });
    await first.write([inventedDraft('a'), inventedDraft('b'), inventedDraft('c')]);
    const row = disk.rows[1]!;
    disk.rows[1] = { ...row, body: row.body!.replace('87,5', '87,6') };
    const replica = await openReplica(createMemoryStore('c', disk), source(3));
    expect(replica.damaged).toEqual([
      { position: 1, hash: row.hash, problem: expect.stringMatching(/body/) },
    ]);
    expect(replica.ledger.size).toBe(2);
    const [next] = await replica.write([inventedDraft('d')]);
    expect(next!.header.device).not.toBe('d');
    const again = await openReplica(createMemoryStore('c', disk), source(4));
    expect(again.device).toBe(next!.header.device);
  });

  it('takes what the store has opened itself as it is, and reads and checks what lies behind it', async () => {
    const disk = createMemoryDisk('e');
    const first = await openReplica(createMemoryStore('c', disk), source(1));
    const [a] = await first.write([inventedDraft('a'), inventedDraft('b'), inventedDraft('c')]);
    // Nobody looks at the first row again; the second is looked at, and so is the third.
    disk.rows[0] = { ...disk.rows[0]!, head: '{}' };
    disk.rows[1] = { ...disk.rows[1]!, head: '{}' };
    const options = { ...source(3), opened: [a!] };
    const { damaged, ledger } = await openReplica(createMemoryStore('c', disk), options);
    expect(damaged.map((row) => row.position)).toEqual([1]);
    expect(ledger.entries().map((entry) => entry.header.id)).toEqual(['a', 'c']);
  });

  it('a damaged row comes back from a peer, and its followers travel again', async () => {
    const { tablet, server, tabletDisk } = await pair();
    const written = await tablet.write([inventedDraft('a'), inventedDraft('b'), inventedDraft('c')]);
    await exchange(tablet, server);
    tabletDisk.rows.splice(1, 1);
    const back = await openReplica(createMemoryStore('c', tabletDisk), source(9));
    expect(back.ledger.orphans().map((entry) => entry.header.id)).toEqual(['c']);
    await exchange(back, server);
    expect(back.ledger.orphans()).toEqual([]);
    expect(back.ledger.has(written[1]!.hash)).toBe(true);
  });

  it('after a restored backup (another epoch) the store writes under a new device', async () => {
    const disk = createMemoryDisk('e1');
    const first = await openReplica(createMemoryStore('c', disk), { ...source(1), device: 'd' });
    await first.write([inventedDraft('a')]);
    const backup = copyMemoryDisk(disk, 'e2');
    const restored = await openReplica(createMemoryStore('c', backup), source(2));
    const [entry] = await restored.write([inventedDraft('b')]);
    expect(entry!.header.device).not.toBe('d');
    expect(entry!.header.sequence).toBe(1);
    expect(restored.ledger.forks()).toEqual([]);
  });

  it('a disk that is full can still be read', async () => {
    const disk = createMemoryDisk('e');
    const first = await openReplica(createMemoryStore('c', disk), source(1));
    await first.write([inventedDraft('a')]);
    disk.notes.clear();
    const store = createMemoryStore('c', disk, { append: () => 'refused', setNote: () => 'refused' });
    expect((await openReplica(store, source(2))).ledger.size).toBe(1);
  });
});

it('subscribe: listeners hear of every addition before the writer goes on', async () => {
  const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
  const heard: string[] = [];
  const stop = replica.subscribe((added) => heard.push(...added.map((entry) => entry.header.id)));
  await replica.write([inventedDraft('a')]);
  expect(heard).toEqual(['a']);
  stop();
  await replica.write([inventedDraft('b')]);
  expect(heard).toEqual(['a']);
});
