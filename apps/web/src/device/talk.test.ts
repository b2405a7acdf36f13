import {
  createMemoryDisk,
  createMemoryStore,
  type Draft,
  digest,
  newId,
  openReplica,
  type Replica,
} from '@firnbook/journal';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Camp } from './camp.ts';
import { CAMP, startTalk, type TalkOptions } from './talk.ts';

let counter = 0;
const source = {
  now: () => 1_800_000_000_000 + counter,
  randomBytes: (length: number) =>
    Uint8Array.from({ length }, (_, index) => (counter += index * 7 + 1) % 251),
};

const open = (): Promise<Replica> =>
  openReplica(createMemoryStore('ceredin', createMemoryDisk(newId(source))), source);

const draft = (length: string): Draft => ({
  id: newId(source),
  kind: 'piece.logged',
  version: 1,
  observedAt: '2031-06-14T11:42:00+02:00',
  by: 'person-hn',
  body: { hole: 'hole-a', readings: { length } },
});

describe('startTalk', () => {
  let isUp = true;
  let exchanges = 0;
  let answering: Replica;
  let tablet: Replica;
  const camp: Camp = {
    campaigns: async () => [],
    exchange: async (_, request) => {
      exchanges += 1;
      if (!isUp) throw new TypeError('Failed to fetch');
      return answering.answer(request);
    },
    sticks: async () => [],
    onStick: async () => [],
    recover: async () => undefined,
    backups: async () => [],
    putFile: async () => undefined,
    getFile: async () => null,
  };
  const talkWith = (more: Partial<TalkOptions> = {}) =>
    startTalk({
      replica: tablet,
      camp,
      isVisible: () => true,
      onHeard: () => undefined,
      onState: () => undefined,
      onTrouble: () => undefined,
      ...more,
    });

  beforeEach(async () => {
    isUp = true;
    exchanges = 0;
    answering = await open();
    tablet = await open();
    vi.useFakeTimers();
  });
  afterEach(() => void vi.useRealTimers());

  it('exchanges until both sides hold the same entries, then says which are at camp', async () => {
    const mine = await tablet.write([draft('54,6 cm'), draft('31.0 cm')]);
    await answering.write([draft('0.42 m')]);
    const talk = talkWith();
    await talk.now();
    talk.close();
    expect(talk.state).toBe('reachable');
    expect(digest(tablet.ledger)).toBe(digest(answering.ledger));
    expect(tablet.ledger.size).toBe(3);
    expect(mine.every((entry) => tablet.safety(CAMP).holds(entry))).toBe(true);
  });

  it('sends within ten seconds after the camp computer comes back, however long it was away', async () => {
    isUp = false;
    const states: string[] = [];
    const talk = talkWith({ onState: () => states.push(talk.state) });
    await tablet.write([draft('54,6 cm')]);
    await talk.now();
    await vi.advanceTimersByTimeAsync(3_600_000);
    expect(answering.ledger.size).toBe(0);
    isUp = true;
    await vi.advanceTimersByTimeAsync(10_000);
    talk.close();
    expect(answering.ledger.size).toBe(1);
    expect(states).toEqual(['unreachable', 'reachable']);
  });

  it('asks once more for what was written while an exchange was going on', async () => {
    const talk = talkWith();
    await talk.now();
    const first = talk.now();
    await tablet.write([draft('12.5 cm')]);
    await talk.now();
    await first;
    talk.close();
    expect(answering.ledger.size).toBe(1);
  });

  it('is silent while nobody looks and nothing is owed', async () => {
    const talk = talkWith({ isVisible: () => false });
    await talk.now();
    const before = exchanges;
    await vi.advanceTimersByTimeAsync(3_600_000);
    talk.close();
    expect(exchanges).toBe(before);
  });

  it('tells of a store that fails and does not call the camp computer unreachable', async () => {
    await answering.write([draft('0.42 m')]);
    const refuses: Replica = { ...tablet, hear: () => Promise.reject(new Error('no room left')) };
    const troubles: string[] = [];
    const talk = talkWith({
      replica: refuses,
      onTrouble: (error) => troubles.push((error as Error).message),
    });
    await talk.now();
    talk.close();
    expect(troubles).toEqual(['no room left']);
    expect(talk.state).toBe('reachable');
  });
});
