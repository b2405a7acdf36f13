import { describe, expect, it } from 'vitest';
import { digest } from './digest.ts';
import type { Draft } from './entry.ts';
import { copyMemoryDisk, createMemoryDisk, createMemoryStore, type MemoryFault } from './memory-store.ts';
import { openReplica, type Replica } from './replica.ts';
import { seededRandom } from './simulation/random.ts';
import { readReply, readRequest } from './wire.ts';

const NOON = Date.UTC(2031, 0, 14, 12);

function source(seed: number, now = () => NOON) {
  return { now, randomBytes: seededRandom(seed).bytes };
}

function draft(id: string, more: Partial<Draft> = {}): Draft {
  const body = { hole: 'CER-A', readings: { depth: '12,30 m', note: id } };
  return {
    id,
    kind: 'run.logged',
    version: 1,
    observedAt: '2031-01-14T09:00:00-03:00',
    by: 'kv',
    body,
    ...more,
  };
}

/** Both ways through JSON text, as over the wire, until nothing moves. */
async function exchange(tablet: Replica, server: Replica): Promise<number> {
  let rounds = 0;
  for (let again = true; again; rounds += 1) {
    const request = readRequest(JSON.parse(JSON.stringify(tablet.ask('camp'))));
    if (!request.ok) throw new Error(request.problem);
    const reply = readReply(JSON.parse(JSON.stringify(await server.answer(request.value))));
    if (!reply.ok) throw new Error(reply.problem);
    again = (await tablet.hear('camp', reply.value)).again;
    if (rounds > 50) throw new Error('no end of it');
  }
  return rounds;
}

async function pair() {
  const tabletDisk = createMemoryDisk('t1');
  const serverDisk = createMemoryDisk('s1');
  const tablet = await openReplica(createMemoryStore('c', tabletDisk), { ...source(1), device: 'tablet' });
  const server = await openReplica(createMemoryStore('c', serverDisk), { ...source(2), device: 'server' });
  return { tablet, server, tabletDisk, serverDisk };
}

describe('write', () => {
  it('gives entries that follow each other and are in the store when it resolves', async () => {
    const disk = createMemoryDisk('e');
    const replica = await openReplica(createMemoryStore('c', disk), { ...source(1), device: 'd' });
    const [one, two] = await replica.write([draft('a'), draft('b')]);
    const [three] = await replica.write([draft('c')]);
    expect(disk.rows.map((row) => row.hash)).toEqual([one!.hash, two!.hash, three!.hash]);
    expect([one, two, three].map((entry) => entry!.header.sequence)).toEqual([1, 2, 3]);
    expect(three!.header.previous).toBe(two!.hash);
    expect(replica.ledger.size).toBe(3);
  });

  it('J2: the same draft written twice is one entry', async () => {
    const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
    const [first] = await replica.write([draft('a')]);
    const [again] = await replica.write([draft('a')]);
    expect(again).toBe(first);
    expect(replica.ledger.size).toBe(1);
  });

  it('I2: another body under an id that is taken is refused and nothing is written', async () => {
    const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
    await replica.write([draft('a')]);
    await expect(replica.write([draft('b'), draft('a', { body: { x: 1 } })])).rejects.toThrow(
      /already names/,
    );
    expect(replica.ledger.size).toBe(1);
  });

  it('a draft that cannot be sealed rejects alone; the write beside it succeeds', async () => {
    const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
    const bad = replica.write([draft('a'), draft('b', { body: { note: 'half \ud800' } })]);
    const good = replica.write([draft('c')]);
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
      await replica.write([draft('a')]);
      next = fault;
      await expect(replica.write([draft('b')])).rejects.toThrow(/told to fail/);
      expect(replica.ledger.size).toBe(1);
      next = null;
      const [b, c] = await replica.write([draft('b'), draft('c')]);
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
    await Promise.all(Array.from({ length: 50 }, (_, index) => replica.write([draft(`id-${index}`)])));
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
      Array.from({ length: 20 }, (_, index) => tabs[index % 2]!.write([draft(`id-${index}`)])),
    );
    for (const tab of tabs) await tab.refresh();
    expect(tabs[0]!.device).toBe(tabs[1]!.device);
    expect(digest(tabs[0]!.ledger)).toBe(digest(tabs[1]!.ledger));
    expect(tabs[0]!.ledger.chain(tabs[0]!.device)!.levels.map((level) => level.length)).toEqual(
      Array(20).fill(1),
    );
    await tabs[0]!.newDevice();
    const [entry] = await tabs[1]!.write([draft('after')]);
    expect(entry!.header.device).toBe(tabs[0]!.device);
  });
});

describe('openReplica', () => {
  it('reports a damaged row, reads the rest, and writes under a new device', async () => {
    const disk = createMemoryDisk('e');
    const first = await openReplica(createMemoryStore('c', disk), { ...source(1), device: 'd' });
    await first.write([draft('a'), draft('b'), draft('c')]);
    const row = disk.rows[1]!;
    disk.rows[1] = { ...row, body: row.body!.replace('12,30', '12,31') };
    const replica = await openReplica(createMemoryStore('c', disk), source(3));
    expect(replica.damaged).toEqual([
      { position: 1, hash: row.hash, problem: expect.stringMatching(/body/) },
    ]);
    expect(replica.ledger.size).toBe(2);
    const [next] = await replica.write([draft('d')]);
    expect(next!.header.device).not.toBe('d');
    const again = await openReplica(createMemoryStore('c', disk), source(4));
    expect(again.device).toBe(next!.header.device);
  });

  it('a damaged row comes back from a peer, and its followers travel again', async () => {
    const { tablet, server, tabletDisk } = await pair();
    const written = await tablet.write([draft('a'), draft('b'), draft('c')]);
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
    await first.write([draft('a')]);
    const backup = copyMemoryDisk(disk, 'e2');
    const restored = await openReplica(createMemoryStore('c', backup), source(2));
    const [entry] = await restored.write([draft('b')]);
    expect(entry!.header.device).not.toBe('d');
    expect(entry!.header.sequence).toBe(1);
    expect(restored.ledger.forks()).toEqual([]);
  });

  it('a disk that is full can still be read', async () => {
    const disk = createMemoryDisk('e');
    const first = await openReplica(createMemoryStore('c', disk), source(1));
    await first.write([draft('a')]);
    disk.notes.clear();
    const store = createMemoryStore('c', disk, { append: () => 'refused', setNote: () => 'refused' });
    expect((await openReplica(store, source(2))).ledger.size).toBe(1);
  });
});

describe('exchange', () => {
  it('brings both sides to the same bytes in two exchanges', async () => {
    const { tablet, server } = await pair();
    await tablet.write([draft('a'), draft('b')]);
    await server.write([draft('c')]);
    expect(await exchange(tablet, server)).toBeLessThanOrEqual(3);
    expect(digest(tablet.ledger)).toBe(digest(server.ledger));
    expect(server.ledger.size).toBe(3);
  });

  it('I9: ticks hold under the epoch that confirmed them, and go when a restored server shows another', async () => {
    const { tablet, server, serverDisk } = await pair();
    const [early] = await tablet.write([draft('a')]);
    expect(tablet.safety('camp').holds(early!)).toBe(false);
    await exchange(tablet, server);
    const backup = copyMemoryDisk(serverDisk, 's2');
    const [late] = await tablet.write([draft('b')]);
    await exchange(tablet, server);
    expect(tablet.safety('camp').holds(late!)).toBe(true);
    expect(tablet.safety('camp').missing()).toEqual([]);
    const restored = await openReplica(createMemoryStore('c', backup), source(5));
    const reply = await restored.answer(tablet.ask('camp'));
    await tablet.hear('camp', reply);
    expect(tablet.safety('camp').epoch).toBe('s2');
    expect(tablet.safety('camp').holds(early!)).toBe(true);
    expect(tablet.safety('camp').holds(late!)).toBe(false);
    await exchange(tablet, restored);
    expect(tablet.safety('camp').holds(late!)).toBe(true);
  });

  it('a reply to an older question changes no tick', async () => {
    const { tablet, server } = await pair();
    const [entry] = await tablet.write([draft('a')]);
    await exchange(tablet, server);
    const old = tablet.ask('camp');
    const empty = await openReplica(createMemoryStore('c', createMemoryDisk('s0')), source(6));
    const late = await empty.answer(old);
    await exchange(tablet, server);
    await tablet.hear('camp', late);
    expect(tablet.safety('camp').epoch).toBe('s1');
    expect(tablet.safety('camp').holds(entry!)).toBe(true);
  });

  it('ticks survive a restart', async () => {
    const { tablet, server, tabletDisk } = await pair();
    const [entry] = await tablet.write([draft('a')]);
    await exchange(tablet, server);
    const again = await openReplica(createMemoryStore('c', tabletDisk), source(7));
    expect(again.safety('camp').holds(entry!)).toBe(true);
  });

  it('a cloned tablet: both branches are kept everywhere, the fork is found, the clone writes under a new name', async () => {
    const { tablet, server, tabletDisk } = await pair();
    await tablet.write([draft('a'), draft('b')]);
    await exchange(tablet, server);
    const clone = await openReplica(createMemoryStore('c', copyMemoryDisk(tabletDisk, 't1')), source(8));
    for (let index = 0; index < 30; index += 1) await tablet.write([draft(`t${index}`)]);
    for (let index = 0; index < 40; index += 1) await clone.write([draft(`k${index}`)]);
    await exchange(tablet, server);
    await exchange(clone, server);
    await exchange(tablet, server);
    expect(server.ledger.size).toBe(72);
    expect(digest(clone.ledger)).toBe(digest(server.ledger));
    expect(digest(tablet.ledger)).toBe(digest(server.ledger));
    expect(server.ledger.forks()).toEqual([{ device: 'tablet', sequence: 3, hashes: expect.any(Array) }]);
    await clone.write([draft('later')]);
    expect(clone.device).not.toBe('tablet');
  });

  it('J7: clocks that are off are reported on both sides and written into later entries', async () => {
    const server = await openReplica(createMemoryStore('c', createMemoryDisk('s')), source(1));
    const options = { ...source(2, () => 0), device: 'tablet' };
    const tablet = await openReplica(createMemoryStore('c', createMemoryDisk('t')), options);
    await tablet.write([draft('a')]);
    const heard = await tablet.hear('camp', await server.answer(tablet.ask('camp')));
    expect(heard.clockOff).toBe(-NOON);
    expect(server.clocksOff().get('tablet')).toBe(-NOON);
    const [entry] = await tablet.write([draft('b')]);
    expect(entry!.header.clockOff).toBe(-NOON);
  });

  it('J5: an entry that is refused holds back nothing but its own chain', async () => {
    const { tablet, server } = await pair();
    await tablet.write([draft('a'), draft('b')]);
    const [other] = await server.write([draft('c')]);
    const [first, second] = tablet.ledger.entries().map((entry) => entry.sealed);
    const fresh = await openReplica(createMemoryStore('c', createMemoryDisk('x')), source(3));
    const { added, refused } = await fresh.take([
      { ...first!, head: `${first!.head} ` },
      second!,
      other!.sealed,
    ]);
    expect(added.map((entry) => entry.header.id)).toEqual(['c']);
    expect(refused).toHaveLength(2);
  });
});

it('subscribe: listeners hear of every addition before the writer goes on', async () => {
  const replica = await openReplica(createMemoryStore('c', createMemoryDisk('e')), source(1));
  const heard: string[] = [];
  const stop = replica.subscribe((added) => heard.push(...added.map((entry) => entry.header.id)));
  await replica.write([draft('a')]);
  expect(heard).toEqual(['a']);
  stop();
  await replica.write([draft('b')]);
  expect(heard).toEqual(['a']);
});
