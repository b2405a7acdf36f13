import { describe, expect, it } from 'vitest';
import { newSigner, verifyByNode } from './ed25519.suite.ts';
import type { Sealed } from './entry.ts';
import { copyMemoryDisk, createMemoryDisk, createMemoryStore, type MemoryDisk } from './memory-store.ts';
import { openReplica, type Replica } from './replica.ts';
import type { Signer } from './signature.ts';
import { inventedDraft } from './simulation/invented.ts';
import { exchange, source } from './simulation/invented-pair.ts';

let seed = 100;

function opened(disk: MemoryDisk, signer?: Signer): Promise<Replica> {
  seed += 1;
  const signing = signer === undefined ? {} : { signer };
  return openReplica(createMemoryStore('c', disk), { ...source(seed), verify: verifyByNode, ...signing });
}

const camp = () => opened(createMemoryDisk('camp'));

/** What an outsider finds who knows nothing but the rows: the key stated, and whether each signature is by it. */
function audit(rows: readonly Sealed[]) {
  const keys = new Map<string, string>();
  return rows.map(({ hash, head, signature }) => {
    const { device, key, previous } = JSON.parse(head);
    const stated = keys.get(previous) ?? key;
    if (stated !== undefined) keys.set(hash, stated);
    const isSigned = stated !== undefined && verifyByNode(stated, signature ?? '', head);
    return { device, states: key !== undefined, isSigned };
  });
}

describe('a replica that can sign', () => {
  it('J9: signs everything it writes, and states its key with its first entry alone', async () => {
    const disk = createMemoryDisk('e');
    const replica = await opened(disk, newSigner());
    const [a, b] = await replica.write([inventedDraft('a'), inventedDraft('b')]);
    await Promise.all(['c', 'd'].map((id) => replica.write([inventedDraft(id)])));
    expect(audit(disk.rows).map(({ states, isSigned }) => [states, isSigned])).toEqual([
      [true, true],
      [false, true],
      [false, true],
      [false, true],
    ]);
    // What the writer is handed is what is stored.
    expect([a!.sealed, b!.sealed]).toEqual(disk.rows.slice(0, 2));
    expect(await replica.proof(replica.ledger.byId('c')!)).toBe('signed');
    expect(replica.signs).toBe(true);
  });

  it('J9: goes on with the same key after a restart, and a renamed device states it again', async () => {
    const disk = createMemoryDisk('e');
    const signer = newSigner();
    const first = await opened(disk, signer);
    await first.write([inventedDraft('a')]);
    const again = await opened(disk, signer);
    await again.write([inventedDraft('b')]);
    expect(again.device).toBe(first.device);
    await again.newDevice();
    await again.write([inventedDraft('c'), inventedDraft('d')]);
    expect(audit(disk.rows)).toEqual([
      { device: first.device, states: true, isSigned: true },
      { device: first.device, states: false, isSigned: true },
      { device: again.device, states: true, isSigned: true },
      { device: again.device, states: false, isSigned: true },
    ]);
  });

  it('J9: a restored backup states the key again under its new name', async () => {
    const disk = createMemoryDisk('e');
    const signer = newSigner();
    const first = await opened(disk, signer);
    await first.write([inventedDraft('a')]);
    const restored = copyMemoryDisk(disk, 'another life');
    const back = await opened(restored, signer);
    await back.write([inventedDraft('b')]);
    expect(back.device).not.toBe(first.device);
    expect(audit(restored.rows).map(({ states }) => states)).toEqual([true, true]);
  });

  it('J9: a name that wrote unsigned begins to sign where it is', async () => {
    const disk = createMemoryDisk('e');
    const plain = await opened(disk);
    await plain.write([inventedDraft('a'), inventedDraft('b')]);
    const replica = await opened(disk, newSigner());
    await replica.write([inventedDraft('c')]);
    expect(replica.device).toBe(plain.device);
    expect(audit(disk.rows).map(({ states, isSigned }) => [states, isSigned])).toEqual([
      [false, false],
      [false, false],
      [true, true],
    ]);
    const server = await camp();
    await exchange(replica, server);
    expect(server.ledger.size).toBe(3);
  });

  it.each([
    ['another key', newSigner()],
    ['no key', undefined],
  ])('J9: a name that has signed is not used with %s, and everybody takes the new one', async (_, other) => {
    const disk = createMemoryDisk('e');
    const first = await opened(disk, newSigner());
    await first.write([inventedDraft('a')]);
    const replica = await opened(disk, other);
    await replica.write([inventedDraft('b')]);
    await replica.write([inventedDraft('c')]);
    expect(replica.device).not.toBe(first.device);
    const server = await camp();
    await exchange(replica, server);
    expect(server.ledger.size).toBe(3);
  });

  it('J9, J5: signing that fails holds nothing back: the entry is kept unsigned, under a new name, and travels', async () => {
    const disk = createMemoryDisk('e');
    const signer = newSigner();
    let fails = false;
    const sign = async (text: string) => {
      if (fails) throw new Error('the key store does not answer');
      return signer.sign(text);
    };
    const replica = await opened(disk, { key: signer.key, sign });
    await replica.write([inventedDraft('a')]);
    const { device } = replica;
    fails = true;
    const [b] = await replica.write([inventedDraft('b')]);
    fails = false;
    await replica.write([inventedDraft('c')]);
    expect(b!.header.device).not.toBe(device);
    expect(replica.signs).toBe(false);
    expect(await replica.proof(b!)).toBe('unsigned');
    const server = await camp();
    await exchange(replica, server);
    expect(server.ledger.size).toBe(3);
    // At the next start it signs again.
    const later = await opened(disk, signer);
    await later.write([inventedDraft('d')]);
    await exchange(later, server);
    expect(server.ledger.size).toBe(4);
    expect(audit(disk.rows).map(({ isSigned }) => isSigned)).toEqual([true, false, false, true]);
  });

  it('J9, J5: of two tabs on one store one cannot sign: nothing is held back', async () => {
    const disk = createMemoryDisk('e');
    let lock: Promise<unknown> = Promise.resolve();
    const exclusive = <T>(work: () => Promise<T>): Promise<T> => {
      const mine = lock.then(work, work);
      lock = mine.catch(() => undefined);
      return mine;
    };
    const signer = newSigner();
    const tab = (more: object, id: number) =>
      openReplica(createMemoryStore('c', disk), { ...source(id), verify: verifyByNode, exclusive, ...more });
    const tabs = [await tab({ signer }, 1), await tab({}, 2)];
    for (let count = 0; count < 12; count += 1)
      await tabs[count % 3 === 0 ? 1 : 0]!.write([inventedDraft(`entry-${count}`)]);
    const server = await camp();
    await tabs[0]!.refresh();
    await exchange(tabs[0]!, server);
    expect(server.ledger.size).toBe(12);
    expect(server.ledger.forks()).toEqual([]);
  });

  it('J2, J4: the same draft after an append of unknown fate is one signed entry', async () => {
    const disk = createMemoryDisk('e');
    let isFailing = true;
    const store = createMemoryStore('c', disk, { append: () => (isFailing ? 'kept' : null) });
    const options = { ...source(7), verify: verifyByNode, signer: newSigner() };
    const replica = await openReplica(store, options);
    await expect(replica.write([inventedDraft('a')])).rejects.toThrow(/told to fail/);
    isFailing = false;
    const [entry] = await replica.write([inventedDraft('a')]);
    expect(disk.rows).toEqual([entry!.sealed]);
    expect(await replica.proof(entry!)).toBe('signed');
  });
});

describe('a wrong signature', () => {
  /** A tablet, and a copy of its journal in which somebody has changed the signature of "b". */
  async function damagedCopy() {
    const disk = createMemoryDisk('e');
    const tablet = await opened(disk, newSigner());
    await tablet.write(['a', 'b', 'c'].map((id) => inventedDraft(id)));
    const copy = copyMemoryDisk(disk, 'copy');
    const row = copy.rows[1]!;
    copy.rows[1] = { ...row, signature: copy.rows[0]!.signature };
    return { tablet, copy };
  }

  it('J9: that is held already is read, folded and named as wrong; nothing of it is dropped', async () => {
    const { copy } = await damagedCopy();
    const replica = await opened(copy);
    expect(replica.damaged).toEqual([]);
    const proofs = replica.ledger.entries().map((entry) => replica.proof(entry));
    expect(await Promise.all(proofs)).toEqual(['signed', 'wrong', 'signed']);
  });

  it('J9: is refused at exchange with its followers; whoever holds the sound entry brings all of it', async () => {
    const { tablet, copy } = await damagedCopy();
    const replica = await opened(copy);
    await replica.write([inventedDraft('of-the-copy')]);
    const server = await camp();
    await replica.hear('camp', await server.answer(replica.ask('camp')));
    const { refusedThere } = await replica.hear('camp', await server.answer(replica.ask('camp')));
    expect(refusedThere.map(({ problem }) => problem)).toEqual([
      expect.stringMatching(/not by its device's key/),
      expect.stringMatching(/sequence 2.*not here/),
    ]);
    expect(server.ledger.entries().map((entry) => entry.header.id)).toEqual(['a', 'of-the-copy']);
    await exchange(tablet, server);
    expect(server.ledger.size).toBe(4);
  });
});

describe('a chain that nobody takes', () => {
  /** Of the device "damaged" a hundred entries, the first without its signature, in a store of their own. */
  async function holder(epoch: string) {
    const disk = createMemoryDisk(epoch);
    const writer = await opened(disk, newSigner());
    await writer.write(Array.from({ length: 100 }, (_, index) => inventedDraft(`${epoch}-${index}`)));
    disk.rows[0] = { ...disk.rows[0]!, signature: null };
    return copyMemoryDisk(disk, `${epoch}-copied`);
  }

  const small = { limit: { entries: 7, characters: 1_000_000 } };
  const slow = (disk: MemoryDisk, id: number) =>
    openReplica(createMemoryStore('c', disk), { ...source(id), verify: verifyByNode, ...small });

  it('J9, J5: does not fill every offer: what others wrote goes past it, both ways', async () => {
    const tablet = await slow(await holder('t'), 31);
    const server = await slow(await holder('s'), 32);
    await tablet.write(Array.from({ length: 20 }, (_, index) => inventedDraft(`of-tablet-${index}`)));
    await server.write(Array.from({ length: 20 }, (_, index) => inventedDraft(`of-server-${index}`)));
    await exchange(tablet, server);
    for (const one of [tablet, server]) {
      const ids = one.ledger.entries().map((entry) => entry.header.id);
      expect(ids.filter((id) => id.startsWith('of-tablet'))).toHaveLength(20);
      expect(ids.filter((id) => id.startsWith('of-server'))).toHaveLength(20);
    }
    // What nobody can prove stays with the one who holds it, whole.
    expect([tablet.ledger.size, server.ledger.size]).toEqual([140, 140]);
  });
});
