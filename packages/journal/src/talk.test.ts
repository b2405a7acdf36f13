import { describe, expect, it } from 'vitest';
import { digest } from './digest.ts';
import { copyMemoryDisk, createMemoryDisk, createMemoryStore } from './memory-store.ts';
import { openReplica } from './replica.ts';
import { inventedDraft } from './simulation/invented.ts';
import { exchange, NOON, pair, source } from './simulation/invented-pair.ts';

describe('exchange', () => {
  it('brings both sides to the same bytes in two exchanges', async () => {
    const { tablet, server } = await pair();
    await tablet.write([inventedDraft('a'), inventedDraft('b')]);
    await server.write([inventedDraft('c')]);
    expect(await exchange(tablet, server)).toBeLessThanOrEqual(3);
    expect(digest(tablet.ledger)).toBe(digest(server.ledger));
    expect(server.ledger.size).toBe(3);
  });

  it('I9: ticks hold under the epoch that confirmed them, and go when a restored server shows another', async () => {
    const { tablet, server, serverDisk } = await pair();
    const [early] = await tablet.write([inventedDraft('a')]);
    expect(tablet.safety('camp').holds(early!)).toBe(false);
    await exchange(tablet, server);
    const backup = copyMemoryDisk(serverDisk, 's2');
    const [late] = await tablet.write([inventedDraft('b')]);
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
    const [entry] = await tablet.write([inventedDraft('a')]);
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
    const [entry] = await tablet.write([inventedDraft('a')]);
    await exchange(tablet, server);
    const again = await openReplica(createMemoryStore('c', tabletDisk), source(7));
    expect(again.safety('camp').holds(entry!)).toBe(true);
  });

  it('a cloned tablet: both branches are kept everywhere, the fork is found, the clone writes under a new name', async () => {
    const { tablet, server, tabletDisk } = await pair();
    await tablet.write([inventedDraft('a'), inventedDraft('b')]);
    await exchange(tablet, server);
    const clone = await openReplica(createMemoryStore('c', copyMemoryDisk(tabletDisk, 't1')), source(8));
    for (let index = 0; index < 30; index += 1) await tablet.write([inventedDraft(`t${index}`)]);
    for (let index = 0; index < 40; index += 1) await clone.write([inventedDraft(`k${index}`)]);
    await exchange(tablet, server);
    await exchange(clone, server);
    await exchange(tablet, server);
    expect(server.ledger.size).toBe(72);
    expect(digest(clone.ledger)).toBe(digest(server.ledger));
    expect(digest(tablet.ledger)).toBe(digest(server.ledger));
    expect(server.ledger.forks()).toEqual([{ device: 'tablet', sequence: 3, hashes: expect.any(Array) }]);
    await clone.write([inventedDraft('later')]);
    expect(clone.device).not.toBe('tablet');
  });

  it('J7: clocks that are off are reported on both sides and written into later entries', async () => {
    const server = await openReplica(createMemoryStore('c', createMemoryDisk('s')), source(1));
    const options = { ...source(2, () => 0), device: 'tablet' };
    const tablet = await openReplica(createMemoryStore('c', createMemoryDisk('t')), options);
    await tablet.write([inventedDraft('a')]);
    const heard = await tablet.hear('camp', await server.answer(tablet.ask('camp')));
    expect(heard.clockOff).toBe(-NOON);
    expect(server.clocksOff().get('tablet')).toBe(-NOON);
    const [entry] = await tablet.write([inventedDraft('b')]);
    expect(entry!.header.clockOff).toBe(-NOON);
  });

  it('J5: an entry that is refused holds back nothing but its own chain', async () => {
    const { tablet, server } = await pair();
    await tablet.write([inventedDraft('a'), inventedDraft('b')]);
    const [other] = await server.write([inventedDraft('c')]);
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

  it('I4: an offer made for an earlier life of the peer is left lying, and the next one is right', async () => {
    const { tablet, server, serverDisk } = await pair();
    const backup = copyMemoryDisk(serverDisk, 's2');
    const [target] = await tablet.write([inventedDraft('target')]);
    await exchange(tablet, server);
    const other = await openReplica(createMemoryStore('c', createMemoryDisk('o')), source(4));
    await exchange(other, server);
    await other.write([inventedDraft('correction', { corrects: [target!.header.id], reason: 'read again' })]);
    const restored = await openReplica(createMemoryStore('c', backup), source(5));
    const reply = await restored.answer(other.ask('camp'));
    expect(restored.ledger.size).toBe(0);
    await other.hear('camp', reply);
    await exchange(other, restored);
    expect(restored.ledger.size).toBe(2);
    expect(restored.ledger.waiting()).toEqual([]);
  });

  it('a broken clock makes no unreadable message and stops nothing (J7)', async () => {
    const { server } = await pair();
    const tablet = await openReplica(
      createMemoryStore('c', createMemoryDisk('t')),
      source(3, () => Number.NaN),
    );
    await tablet.write([inventedDraft('a')]);
    await exchange(tablet, server);
    const [entry] = await tablet.write([inventedDraft('b')]);
    expect(entry!.header.clockOff).toBe(-NOON);
  });

  it('the same news are noted once', async () => {
    const { server } = await pair();
    let notes = 0;
    const setNote = (name: string) => {
      if (name === 'peers') notes += 1;
      return null;
    };
    const tablet = await openReplica(createMemoryStore('c', createMemoryDisk('t'), { setNote }), source(3));
    for (let round = 0; round < 5; round += 1) await exchange(tablet, server);
    expect(notes).toBe(1);
  });

  it('what could not be stored rejects, and what the peer holds is known all the same', async () => {
    const { server } = await pair();
    await server.write([inventedDraft('a')]);
    const full = createMemoryStore('c', createMemoryDisk('t'), { append: () => 'refused' });
    const tablet = await openReplica(full, source(3));
    const reply = await server.answer(tablet.ask('camp'));
    expect(reply.entries).toHaveLength(1);
    await expect(tablet.hear('camp', reply)).rejects.toThrow(/told to fail/);
    expect(tablet.ledger.size).toBe(0);
    expect(tablet.safety('camp').epoch).toBe('s1');
  });
});
