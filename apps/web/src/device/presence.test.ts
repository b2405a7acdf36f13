import type { CampaignView } from '@firnbook/campaign';
import { describe, expect, it, vi } from 'vitest';
import type { CampState, Safety } from './book.ts';
import { type DeviceReport, startPresence } from './presence.ts';
import { nothingKnown } from './tally.ts';

/** The record names a device with the first entry that it writes. */
const campaign = {
  devices: [{ readings: { device: { text: 'tablet-7' } } }],
} as unknown as CampaignView;

/** A device with a clock of its own, and what it told. */
function device(answers: () => Promise<Response> = async () => new Response('{}')) {
  const world = { now: 1_000_000, id: 'tablet-7' };
  let safety: Safety = { ...nothingKnown([], null), onTablet: 9 };
  const told: DeviceReport[] = [];
  const tell = startPresence({
    campaign: 'ceredin',
    spoken: () => ({ device: { id: world.id, name: 'Tablet 3F2A' }, safety, campaign }),
    storage: () => ({ persistence: 'refused', room: 'whole', ballast: 16 }),
    now: () => world.now,
    battery: async () => ({ level: 0.6, charging: true }),
    ask: async (path, init) => {
      expect(path).toBe('/api/campaigns/ceredin/presence');
      told.push(JSON.parse(String(init?.body)));
      return answers();
    },
  });
  return {
    told,
    world,
    tell,
    /** The camp computer answered an exchange, or gave none. */
    exchanged(onlyHere: number, camp: CampState = 'reachable') {
      const campSeen = camp === 'reachable' ? new Date(world.now).toISOString() : safety.campSeen;
      const clockDrift = camp === 'reachable' ? -40 : safety.clockDrift;
      safety = { ...safety, onlyHere, camp, campSeen, clockDrift };
      return tell();
    },
    /** The book as it is drawn before this start's first answer was looked at. */
    answeredBefore() {
      safety = { ...safety, campSeen: '2031-01-16T20:00:00.000Z' };
      return tell();
    },
  };
}

describe('startPresence', () => {
  it('tells how the device is, once an exchange was answered', async () => {
    const { told, tell, exchanged, answeredBefore } = device();
    await tell();
    await answeredBefore();
    expect(told).toEqual([]);
    await exchanged(3);
    expect(told).toEqual([
      {
        device: 'tablet-7',
        name: 'Tablet 3F2A',
        entries: 9,
        unsent: 3,
        clockOff: -40,
        persistence: 'refused',
        copies: 2,
        room: 'whole',
        ballast: 16,
        battery: { level: 0.6, charging: true },
      },
    ]);
  });

  it('tells it again when what is unsent changed, or after a while; a change without an exchange tells nothing', async () => {
    const { told, tell, exchanged, world } = device();
    await exchanged(3);
    world.now += 1_000;
    await exchanged(0);
    world.now += 1_000;
    await exchanged(0);
    await tell();
    expect(told.map(({ unsent }) => unsent)).toEqual([3, 0]);
    world.now += 20_000;
    await tell();
    expect(told).toHaveLength(2);
    await exchanged(0);
    expect(told).toHaveLength(3);
  });

  it('goes on telling what waits while exchanges fail, not oftener than every 20 s', async () => {
    const { told, exchanged, world } = device();
    await exchanged(0);
    for (const unsent of [4, 5, 6, 7]) {
      world.now += 7_000;
      await exchanged(unsent, 'unreachable');
    }
    expect(told.map(({ unsent }) => unsent)).toEqual([0, 6]);
  });

  it('and without anything else happening', async () => {
    vi.useFakeTimers();
    try {
      const { told, exchanged, world } = device();
      await exchanged(0);
      world.now += 5_000;
      await exchanged(12, 'unreachable');
      expect(told).toHaveLength(1);
      for (let wait = 0; wait < 3; wait += 1) {
        world.now += 20_000;
        await vi.advanceTimersByTimeAsync(20_000);
      }
      expect(told.map(({ unsent }) => unsent)).toEqual([0, 12, 12, 12]);
      await exchanged(0);
      world.now += 60_000;
      await vi.advanceTimersByTimeAsync(60_000);
      expect(told.slice(4).map(({ unsent }) => unsent)).toEqual([0]);
    } finally {
      vi.useRealTimers();
    }
  });

  it('a camp computer that is away costs nothing', async () => {
    const { told, exchanged, world } = device(() => Promise.reject(new TypeError('Failed to fetch')));
    await exchanged(2);
    world.now += 30_000;
    await exchanged(2);
    expect(told).toHaveLength(2);
  });

  it('an exchange that is answered while it tells is told after it', async () => {
    let answer: (response: Response) => void = () => undefined;
    let isFirst = true;
    const { told, exchanged, world } = device(() => {
      if (!isFirst) return Promise.resolve(new Response('{}'));
      isFirst = false;
      return new Promise((resolve) => {
        answer = resolve;
      });
    });
    const first = exchanged(50);
    await new Promise((resolve) => setTimeout(resolve));
    world.now += 40;
    await exchanged(0);
    expect(told.map(({ unsent }) => unsent)).toEqual([50]);
    answer(new Response('{}'));
    await first;
    expect(told.map(({ unsent }) => unsent)).toEqual([50, 0]);
  });

  it('says nothing of a browser that has written nothing', async () => {
    const { told, world, exchanged } = device();
    world.id = 'opened-just-now';
    await exchanged(1);
    expect(told).toEqual([]);
    world.id = 'tablet-7';
    world.now += 10;
    await exchanged(1);
    expect(told).toHaveLength(1);
  });
});
