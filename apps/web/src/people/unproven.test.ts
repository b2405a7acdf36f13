import { createMemoryDisk, createMemoryStore } from '@firnbook/journal';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BookHandle } from '../device/book.ts';
import { type CampaignBook, openCampaignBook } from '../device/campaign-book.ts';
import type { Surroundings } from '../device/surroundings.ts';
import { createSolver } from '../solve/solver.ts';
import { storageHere } from './storage.suite.ts';

const away = async (): Promise<never> => {
  throw new TypeError('Failed to fetch');
};

/** A device for which the camp computer is away. */
const surroundings = (): Surroundings => ({
  now: () => Date.now(),
  randomBytes: (length) => crypto.getRandomValues(new Uint8Array(length)),
  camp: {
    campaigns: away,
    exchange: away,
    sticks: away,
    onStick: away,
    recover: away,
    backups: away,
    putFile: away,
    getFile: away,
  },
  openStore: async (id) => ({ ...createMemoryStore(id, createMemoryDisk('life-1')), copies: 2, putBack: 0 }),
  openFiles: async () => ({
    put: async () => '',
    get: async () => null,
    unsent: async () => [],
    confirm: async () => undefined,
  }),
  signing: async () => ({}),
  exclusive: (_, work) => work(),
  announce: () => undefined,
  listen: () => () => undefined,
  isVisible: () => true,
  guard: {
    room: 'absent',
    ballast: 0,
    triedAt: null,
    foresee: () => undefined,
    lay: async () => undefined,
    subscribe: () => () => undefined,
  },
  solver: createSolver(),
});

describe('a book in which PINs are asked', () => {
  const stored = storageHere();
  let book: CampaignBook;
  let person: string;
  let hole: string;

  const now = (): BookHandle => book.snapshot();
  const plan = { do: 'log', kind: 'hole', readings: { letter: 'C' } } as const;
  const run = (number: string) =>
    ({ do: 'log', kind: 'run', hole, readings: { number, from: '12,30 m', to: '13,22 m' } }) as const;
  const taken = async (command: Parameters<BookHandle['decide']>[0]): Promise<readonly string[]> => {
    const done = await now().decide(command);
    if (!done.ok) throw new Error(JSON.stringify(done.refusals));
    return done.entries;
  };

  beforeEach(async () => {
    book = openCampaignBook('saddle', {
      surroundings: surroundings(),
      mayOpen: async () => false,
      onListed: () => undefined,
      deviceName: () => 'Tablet A',
      lacks: () => [],
    });
    const [thing, first] = await taken({
      do: 'open campaign',
      readings: { name: 'Ceredin Saddle', invented: 'yes' },
      crew: [{ initials: 'HN' }],
    });
    person = first!;
    now().setMe(person);
    hole = (await taken({ do: 'log', kind: 'hole', readings: { letter: 'B' } }))[0]!;
    expect(now().writer.unproven).toBeNull();
    await taken({ do: 'add', thing: thing!, readings: { pin: 'asked' } });
  });
  afterEach(() => book.close());

  it('takes what is logged without one, and no plan; with one both', async () => {
    expect(now().writer.unproven).toBe('not given');
    await taken(run('1'));
    const refused = await now().decide(plan);
    expect(refused).toMatchObject({ ok: false, refusals: [{ field: 'by' }] });
    now().writer.proven(person);
    expect(now().writer.unproven).toBeNull();
    await taken(run('2'));
    await taken(plan);
  });

  it('waits with a plan, and with nothing else, where this device can check the PIN', async () => {
    stored.set(`firnbook.pin.saddle.${person}`, '{"setAt":"x","salt":"x","hash":"x"}');
    await taken(run('1'));
    expect(now().writer.isPinWanted).toBe(false);
    for (const isGiven of [false, true]) {
      const deciding = now().decide(plan);
      await expect.poll(() => now().writer.isPinWanted).toBe(true);
      // What is logged meanwhile waits for nobody.
      await taken(run(isGiven ? '3' : '2'));
      if (isGiven) now().writer.proven(person);
      else now().writer.later();
      expect((await deciding).ok).toBe(isGiven);
      expect(now().writer.isPinWanted).toBe(false);
    }
  });

  it('handed over, it writes in nobody’s name until somebody takes it', async () => {
    now().writer.proven(person);
    now().writer.handOver();
    expect([now().me, now().writer.before]).toEqual([null, person]);
    expect((await now().decide(run('1'))).ok).toBe(false);
    now().setMe(person);
    expect(now().writer.unproven).toBe('not given');
    await taken(run('1'));
  });
});
