import { createBook } from '@firnbook/campaign';
import {
  createMemoryDisk,
  createMemoryStore,
  digest,
  type Have,
  haveOf,
  type MemoryFault,
  newId,
  openReplica,
  type Replica,
} from '@firnbook/journal';
import type { BrowserAttachments, BrowserSigning } from '@firnbook/storage/browser';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { startCarrying } from '../carry/carrying.ts';
import { createSolver } from '../solve/solver.ts';
import { sayHere } from '../texts/say-here.ts';
import type { BookHandle } from './book.ts';
import { type CampaignBook, openCampaignBook } from './campaign-book.ts';
import type { Surroundings } from './surroundings.ts';

const source = {
  now: () => Date.now(),
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};

/** Resolves when the book's handle satisfies `is`. */
function until(book: CampaignBook, is: (handle: BookHandle) => boolean): Promise<BookHandle> {
  return new Promise((resolve) => {
    const look = () => {
      const handle = book.snapshot();
      if (!is(handle)) return;
      stop();
      resolve(handle);
    };
    const stop = book.subscribe(look);
    look();
  });
}

/** Pictures have their own tests (files.test.ts). */
const noFiles: BrowserAttachments = {
  put: async () => '',
  get: async () => null,
  unsent: async () => [],
  confirm: async () => undefined,
};

/** A key as the browser makes it, kept nowhere. */
async function signingHere(): Promise<BrowserSigning> {
  const { subtle } = crypto;
  const textOf = (bytes: ArrayBuffer) => Buffer.from(bytes).toString('base64url');
  const pair = (await subtle.generateKey('Ed25519', false, ['sign', 'verify'])) as CryptoKeyPair;
  const key = textOf(await subtle.exportKey('raw', pair.publicKey));
  return {
    signer: {
      key,
      sign: async (text) => textOf(await subtle.sign('Ed25519', pair.privateKey, Buffer.from(text))),
    },
    verify: async (of, signature, text) =>
      of === key &&
      subtle.verify('Ed25519', pair.publicKey, Buffer.from(signature, 'base64url'), Buffer.from(text)),
  };
}

describe('openCampaignBook', () => {
  const id = 'ceredin';
  let isUp = true;
  let fault: MemoryFault | null = null;
  let isStoreBroken = false;
  /** Writes that the store keeps and says nothing of. */
  let silences = 0;
  let copies: 1 | 2 = 2;
  let signing: BrowserSigning = {};
  let camp: Replica;
  let disk = createMemoryDisk('life-1');
  let stick: Have = {};
  let tails: Map<string, Promise<unknown>>;
  let ears: Set<() => void>;
  const books: CampaignBook[] = [];

  const surroundings = (): Surroundings => ({
    ...source,
    camp: {
      campaigns: async () => [],
      exchange: async (_, request) => {
        if (!isUp) throw new TypeError('Failed to fetch');
        return camp.answer(request);
      },
      sticks: async () => [],
      onStick: async () => [],
      recover: async () => undefined,
      backups: async () => [{ name: 'red', madeAt: '2026-06-14T08:00:00Z', heads: stick }],
      putFile: async () => undefined,
      getFile: async () => null,
    },
    openFiles: async () => noFiles,
    signing: async () => signing,
    guard: {
      room: 'absent',
      ballast: 0,
      triedAt: null,
      foresee: () => undefined,
      lay: async () => undefined,
      subscribe: () => () => undefined,
    },
    openStore: async () => {
      const store = createMemoryStore(id, disk, { append: () => fault });
      const append: typeof store.append = async (batch) => {
        await store.append(batch);
        if (silences === 0) return;
        silences -= 1;
        throw Object.assign(new Error('silent'), { trouble: 'unknown fate', mend: 'again' });
      };
      const loadAfter: typeof store.loadAfter = async (count) => {
        if (isStoreBroken) throw new Error('gone');
        return (await store.load()).slice(count);
      };
      return { ...store, append, loadAfter, copies, putBack: 0 };
    },
    exclusive: <T>(name: string, work: () => Promise<T>) => {
      const done = (tails.get(name) ?? Promise.resolve()).then(work, work);
      tails.set(name, done);
      return done;
    },
    announce: () => {
      for (const hear of ears) hear();
    },
    listen: (_, hear) => {
      ears.add(hear);
      return () => ears.delete(hear);
    },
    isVisible: () => true,
    solver: createSolver(),
  });

  const openBook = (name = 'Tablet A'): CampaignBook => {
    const book = openCampaignBook(id, {
      surroundings: surroundings(),
      mayOpen: async () => true,
      onListed: () => undefined,
      deviceName: () => name,
      lacks: () => [],
    });
    books.push(book);
    return book;
  };

  /** A campaign with a hole; the person who opened it writes. */
  const opened = async (book: CampaignBook): Promise<string> => {
    const first = await book.snapshot().decide({
      do: 'open campaign',
      readings: { name: 'Ceredin Saddle', invented: 'yes' },
      crew: [{ initials: 'HN' }],
    });
    if (!first.ok) throw new Error(JSON.stringify(first.refusals));
    book.snapshot().setMe(first.entries[1]!);
    const hole = await book.snapshot().decide({ do: 'log', kind: 'hole', readings: { letter: 'B' } });
    if (!hole.ok) throw new Error(JSON.stringify(hole.refusals));
    return hole.entries[0]!;
  };

  const run = (hole: string, number: string, from: string, to: string) =>
    ({ do: 'log', kind: 'run', hole, readings: { number, from, to } }) as const;

  beforeEach(async () => {
    isUp = true;
    isStoreBroken = false;
    fault = null;
    silences = 0;
    copies = 2;
    signing = {};
    stick = {};
    disk = createMemoryDisk('life-1');
    tails = new Map();
    ears = new Set();
    camp = await openReplica(createMemoryStore(id, createMemoryDisk('camp-1')), source);
  });
  afterEach(() => {
    for (const book of books.splice(0)) book.close();
  });

  it('keeps a decision, names the device once, and ticks "camp" only after the camp computer has it', async () => {
    isUp = false;
    const book = openBook();
    const hole = await opened(book);
    const taken = await book.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'));
    const entry = taken.ok ? taken.entries[0]! : '';
    const before = await until(book, (handle) => handle.safety.camp === 'unreachable');
    expect(before.safety.of(entry)).toBe('tablet');
    expect(before.safety).toMatchObject({ total: 5, onTablet: 5, onCamp: 0, onlyHere: 5, campSeen: null });
    expect(before.campaign?.devices?.map((one) => one.name)).toEqual(['Tablet A']);
    isUp = true;
    before.exchangeNow();
    const after = await until(book, (handle) => handle.safety.onlyHere === 0);
    expect(after.safety.of(entry)).toBe('camp');
    expect(camp.ledger.size).toBe(5);
  });

  it('ticks "second medium" for what the camp computer read back from a stick, and for no entry more', async () => {
    const book = openBook();
    const hole = await opened(book);
    await until(book, (handle) => handle.safety.onlyHere === 0);
    expect(book.snapshot().safety.second).toMatchObject({ entries: 0 });
    stick = haveOf(camp.ledger);
    const taken = await book.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'));
    const after = await until(book, ({ safety }) => safety.onlyHere === 0 && safety.second?.entries === 4);
    expect(after.safety).toMatchObject({ total: 5, second: { names: ['red'], at: '2026-06-14T08:00:00Z' } });
    expect(after.safety.of(taken.ok ? taken.entries[0]! : '')).toBe('camp');
    expect(after.safety.of(hole)).toBe('second');
  });

  it('tells the screens once of all that one save changes', async () => {
    isUp = false;
    const book = openBook();
    const hole = await opened(book);
    await until(book, (handle) => handle.safety.camp === 'unreachable');
    let told = 0;
    book.subscribe(() => {
      told += 1;
    });
    const taken = await book.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'));
    expect(told).toBe(1);
    expect(book.snapshot().campaign?.holes[0]?.runs).toHaveLength(1);
    expect(taken.ok && book.snapshot().safety.of(taken.entries[0]!)).toBe('tablet');
  });

  it('brings everything back after a restart without the camp computer, depths too', async () => {
    isUp = false;
    const first = openBook();
    const hole = await opened(first);
    const taken = await first.snapshot().decide(run(hole, '1', '12.30 m', '13.22 m'));
    const runId = taken.ok ? taken.entries[0]! : '';
    await first.snapshot().decide({
      do: 'log',
      kind: 'piece',
      hole,
      run: runId,
      readings: { number: '1', length: '88,0 cm', topBreak: 'fits' },
    });
    first.close();
    const again = openBook();
    const handle = await until(again, (one) => one.depths[hole] !== undefined);
    expect(handle.campaign?.holes[0]?.runs[0]?.pieces).toHaveLength(1);
    expect(handle.depths[hole]?.coreBottom?.value).toBeCloseTo(13.2, 1);
    expect(handle.device.id).toBe(first.snapshot().device.id);
  });

  it('J4: says nothing is saved when the store fails, and repeats the same entries, never doubled', async () => {
    const book = openBook();
    const hole = await opened(book);
    const command = run(hole, '1', '12,30 m', '13,22 m');
    for (const kind of ['refused', 'kept'] as const) {
      fault = kind;
      await expect(book.snapshot().decide(command)).rejects.toThrow('told to fail');
      expect(sayHere(book.snapshot().safety.trouble!)).toContain('told to fail');
      expect(book.snapshot().safety.total).toBeGreaterThan(book.snapshot().safety.onTablet);
    }
    fault = null;
    const taken = await book.snapshot().decide(command);
    expect(taken.ok).toBe(true);
    const handle = book.snapshot();
    expect(handle.campaign?.holes[0]?.runs.map((one) => one.number)).toEqual([1]);
    expect(handle.safety.trouble).toBeNull();
    expect(handle.safety.of(taken.ok ? taken.entries[0]! : '')).not.toBe('saving');
  });

  it('B8: a store that stays silent is told as "not saved, trying again", and tried until it answers', async () => {
    const book = openBook();
    const hole = await opened(book);
    silences = 2;
    const command = run(hole, '1', '12,30 m', '13,22 m');
    const taking = book.snapshot().decide(command);
    const told = await until(book, ({ safety }) => safety.trouble !== null);
    expect(sayHere(told.safety.trouble!)).toContain('being tried again');
    expect(told.safety.total).toBe(told.safety.onTablet + 1);
    // Meanwhile the person goes on, and that write carries the one that waits.
    const next = await book.snapshot().decide(run(hole, '2', '13,22 m', '14,10 m'));
    const taken = await taking;
    expect([taken.ok, next.ok]).toEqual([true, true]);
    expect(book.snapshot().campaign?.holes[0]?.runs.map((one) => one.number)).toEqual([1, 2]);
    expect(book.snapshot().safety).toMatchObject({ trouble: null });
    if (taken.ok) expect(book.snapshot().safety.of(taken.entries[0]!)).not.toBe('saving');
  });

  it('writes what failed before it writes something else', async () => {
    const book = openBook();
    const hole = await opened(book);
    fault = 'refused';
    await expect(book.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'))).rejects.toThrow();
    fault = null;
    await book.snapshot().decide(run(hole, '2', '13,22 m', '14,10 m'));
    expect(book.snapshot().campaign?.holes[0]?.runs.map((one) => one.number)).toEqual([1, 2]);
  });

  it('keeps what was decided from its entries; after a failed write the same drafts again change nothing', async () => {
    const book = openBook();
    const hole = await opened(book);
    const entries = await book.snapshot().entries();
    expect(entries.length).toBe(book.snapshot().safety.total);
    const beside = createBook();
    beside.add(entries);
    const decided = [1, 2].flatMap((number) => {
      const decision = beside.decide(run(hole, `${number}`, `${number} m`, `${number + 1} m`), {
        by: book.snapshot().me!,
        observedAt: '2026-06-14T09:30:00+05:45',
        newId: () => newId(source),
      });
      return decision.ok ? decision.drafts : [];
    });
    for (const kind of ['refused', 'kept'] as const) {
      fault = kind;
      await expect(book.snapshot().keepDrafts(decided)).rejects.toThrow('told to fail');
    }
    fault = null;
    await book.snapshot().keepDrafts(decided);
    await book.snapshot().keepDrafts(decided);
    expect(book.snapshot().campaign?.holes[0]?.runs.map((one) => one.number)).toEqual([1, 2]);
    expect(book.snapshot().safety.trouble).toBeNull();
  });

  it('I5: two tabs of one device write one chain and see each other', async () => {
    const left = openBook();
    const hole = await opened(left);
    const right = openBook();
    await until(right, (handle) => handle.campaign !== null);
    right.snapshot().setMe(left.snapshot().me!);
    await Promise.all(
      Array.from({ length: 10 }, (_, index) =>
        (index % 2 === 0 ? left : right)
          .snapshot()
          .decide(run(hole, String(index + 1), `${index + 12} m`, `${index + 13} m`)),
      ),
    );
    const counts = await Promise.all(
      [left, right].map((book) => until(book, (one) => one.campaign?.holes[0]?.runs.length === 10)),
    );
    expect(new Set(counts.map((handle) => handle.device.id)).size).toBe(1);
    const replica = await openReplica(createMemoryStore(id, disk), source);
    expect(replica.ledger.forks()).toEqual([]);
    expect([...replica.ledger.devices()]).toHaveLength(1);
  });

  it('of two tabs and two forms of one of them that log run 3 at once, the later ones are asked about it', async () => {
    const left = openBook();
    const hole = await opened(left);
    const right = openBook();
    await until(right, (handle) => handle.campaign !== null);
    right.snapshot().setMe(left.snapshot().me!);
    const answers = await Promise.all(
      [left, right, left].map((tab, at) => tab.snapshot().decide(run(hole, '3', '13,22 m', `14,0${at} m`))),
    );
    const doubts = answers.map((one) => one.ok && one.doubts[0]?.what.key);
    expect(doubts.sort()).toEqual(['doubt.run.first', 'doubt.run.there', 'doubt.run.there']);
  });

  it('I8: another device with its own run 3 leaves both, as a conflict', async () => {
    const mine = openBook('Tablet A');
    const hole = await opened(mine);
    await until(mine, (handle) => handle.safety.onlyHere === 0);
    const own = disk;
    disk = createMemoryDisk('life-2');
    ears = new Set();
    const other = openBook('Tablet B');
    await until(other, (handle) => handle.campaign !== null);
    other.snapshot().setMe(mine.snapshot().me!);
    isUp = false;
    await other.snapshot().decide(run(hole, '3', '13,22 m', '14,05 m'));
    disk = own;
    await mine.snapshot().decide(run(hole, '3', '13,22 m', '14,10 m'));
    isUp = true;
    other.snapshot().exchangeNow();
    await until(other, (handle) => handle.safety.onlyHere === 0);
    mine.snapshot().exchangeNow();
    const handle = await until(mine, (one) => one.campaign?.holes[0]?.runs.length === 2);
    expect(handle.campaign?.holes[0]?.conflicts.map((one) => one.kind)).toEqual(['same name']);
    expect(handle.campaign?.devices?.map((one) => one.name).sort()).toEqual(['Tablet A', 'Tablet B']);
  });

  it('what the browser dropped is fetched from the camp computer, told, and never written over', async () => {
    const kept = new Map<string, string>();
    vi.stubGlobal('localStorage', {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, text: string) => kept.set(name, text),
      removeItem: (name: string) => kept.delete(name),
    });
    try {
      const before = openBook();
      const hole = await opened(before);
      const { device, safety } = await until(before, (handle) => handle.safety.onlyHere === 0);
      before.close();
      disk = createMemoryDisk('life-2');
      const after = openBook();
      const lost = await until(after, (handle) => handle.loss !== null);
      expect(lost.loss).toEqual({ kind: 'lost', count: 0 });
      await until(after, (handle) => handle.safety.total === safety.total);
      await after.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'));
      expect(after.snapshot().device.id).not.toBe(device.id);
      await until(after, (handle) => handle.safety.onlyHere === 0);
      expect(camp.ledger.forks()).toEqual([]);
      expect(after.snapshot().safety.cloned).toEqual([]);
      after.snapshot().seenLoss();
      expect(after.snapshot().loss).toBeNull();
    } finally {
      vi.unstubAllGlobals();
    }
  });

  it('J9: signs what is decided here, and says of each entry which device it is from and what its signature is worth', async () => {
    signing = await signingHere();
    const book = openBook();
    const hole = await opened(book);
    const { device, safety, originOf } = await until(book, (handle) => handle.safety.onlyHere === 0);
    expect(safety.lacks).toEqual([]);
    expect(await originOf(hole)).toEqual({ device: device.id, proof: 'signed', revoked: null });
    expect(await originOf('no such entry')).toBeNull();
    expect(disk.rows.every((row) => row.signature !== null)).toBe(true);
    const row = disk.rows.findIndex(({ head }) => head.includes(hole));
    disk.rows[row] = { ...disk.rows[row]!, signature: disk.rows[0]!.signature };
    const later = openBook();
    await until(later, (handle) => handle.campaign !== null);
    expect(await later.snapshot().originOf(hole)).toEqual({
      device: device.id,
      proof: 'wrong',
      revoked: null,
    });
    // It is shown as wrong, and still shown.
    expect(later.snapshot().campaign?.holes.map((one) => one.id)).toEqual([hole]);
  });

  it('J9: where the browser has no key, or signing fails, entries are kept unsigned and the screens say so', async () => {
    const { signer, verify } = await signingHere();
    let fails = false;
    const sign = async (text: string) => {
      if (fails) throw new DOMException('gone', 'InvalidAccessError');
      return signer!.sign(text);
    };
    signing = { signer: { key: signer!.key, sign }, verify: verify! };
    const book = openBook();
    const hole = await opened(book);
    const before = book.snapshot().device.id;
    fails = true;
    const taken = await book.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'));
    const { originOf, safety } = await until(book, (handle) => handle.safety.onlyHere === 0);
    expect(safety.lacks).toEqual(['lacks.signing']);
    const origin = await originOf(taken.ok ? taken.entries[0]! : '');
    expect(origin?.proof).toBe('unsigned');
    expect(origin?.device).not.toBe(before);
    signing = {};
    const plainHttp = openBook();
    await until(plainHttp, (handle) => handle.campaign !== null);
    expect(plainHttp.snapshot().safety.lacks).toEqual(['lacks.signing']);
    expect(await plainHttp.snapshot().originOf(hole)).toEqual({
      device: before,
      proof: 'unchecked',
      revoked: null,
    });
  });

  it('an entry in one copy is not ticked as one in two', async () => {
    isUp = false;
    copies = 1;
    const book = openBook();
    const hole = await opened(book);
    const taken = await book.snapshot().decide(run(hole, '1', '12,30 m', '13,22 m'));
    expect(book.snapshot().safety.of(taken.ok ? taken.entries[0]! : '')).toBe('once');
    isUp = true;
    book.snapshot().exchangeNow();
    await until(book, (handle) => handle.safety.of(taken.ok ? taken.entries[0]! : '') === 'camp');
  });

  it('carries away what it holds, also when its store can be read no more', async () => {
    const book = openBook();
    await opened(book);
    isStoreBroken = true;
    const text = await (await book.snapshot().exportFile()).text();
    expect(text.split('\n').filter((line) => line.startsWith('{"entry"'))).toHaveLength(4);
    await expect(book.snapshot().carrying.look(new Blob([text]))).rejects.toThrow('gone');
  });

  it('carries every entry away in a file that another device brings in, and takes the answer', async () => {
    const book = openBook();
    await opened(book);
    const file = await book.snapshot().exportFile();
    expect(file.name).toMatch(/^Ceredin Saddle from .+ UTC\.jsonl$/);
    const notes = new Map<string, string>();
    const other = await openReplica(createMemoryStore(id, createMemoryDisk('stick')), source);
    const there = startCarrying({
      campaign: id,
      ready: async () => ({
        replica: other,
        notes: {
          note: async (name) => notes.get(name) ?? null,
          setNote: async (name, text) => void notes.set(name, text),
        },
      }),
      files: { here: async () => null, put: async () => undefined },
      campaignName: () => 'Ceredin Saddle',
      deviceName: () => 'Laptop 2',
      now: source.now,
      onTaken: () => undefined,
    });
    const preview = await there.look(file);
    expect(preview).toMatchObject({ fresh: 4, held: 0, torn: null });
    expect((await there.take(file, preview, () => undefined)).added).toBe(4);
    const draft = { id: newId(source), kind: 'note.later', version: 1, by: 'kv', body: {} };
    await other.write([{ ...draft, observedAt: '2031-06-14T11:42:00+02:00' }]);
    const [met] = await there.peers();
    expect(met).toMatchObject({ lacks: 1 });
    const answer = await there.write(met!.peer);
    const { carrying } = book.snapshot();
    const back = await carrying.take(answer, await carrying.look(answer), () => undefined);
    expect(back).toMatchObject({ added: 1, from: { lacks: 0, peer: { deviceName: 'Laptop 2' } } });
    const replica = await openReplica(createMemoryStore(id, disk), source);
    expect(digest(other.ledger)).toBe(digest(replica.ledger));
  });
});
