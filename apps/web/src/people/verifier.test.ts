import { hashRaw } from '@node-rs/argon2';
import { describe, expect, it } from 'vitest';
import { argon2Of } from './argon2.ts';
import { storageHere } from './storage.suite.ts';
import { checkHere, dropVerifier, hasVerifier, keepVerifier, ownVerifier } from './verifier.ts';

const minute = 60_000;
const right = { pin: '2718', setAt: '2031-01-17T09:40:00.000Z' };

/** Takes no time, and counts. */
function quick() {
  const derive = Object.assign(
    async (pin: string, salt: string) => {
      derive.calls += 1;
      return `${pin} with ${salt}`;
    },
    { calls: 0 },
  );
  return derive;
}

describe('what a tablet keeps of a PIN', () => {
  const stored = storageHere();

  it('is argon2id of 19 MiB and two passes over a salt of its own, as another library works it out', async () => {
    const salt = Buffer.from('a salt of 16 b..').toString('base64');
    const peer = await hashRaw('27182', {
      algorithm: 2,
      memoryCost: 19 * 1024,
      timeCost: 2,
      parallelism: 1,
      outputLen: 32,
      salt: Buffer.from(salt, 'base64'),
    });
    expect(argon2Of('27182', salt)).toBe(peer.toString('base64'));
  });

  it('is kept per person and campaign, is not the PIN, and is made once for one PIN', async () => {
    const derive = quick();
    await keepVerifier('saddle', 'ev', right, async (pin, salt) => argon2Of(pin, salt));
    expect([...stored.values()].join()).not.toContain('2718');
    const first = ownVerifier('saddle', 'ev');
    await keepVerifier('saddle', 'ev', right, derive);
    expect(ownVerifier('saddle', 'ev')).toEqual(first);
    await keepVerifier('saddle', 'kt', right, derive);
    expect(ownVerifier('saddle', 'kt')?.salt).not.toBe(first?.salt);
    expect(hasVerifier('another', 'ev')).toBe(false);
    dropVerifier('saddle', 'ev');
    expect(hasVerifier('saddle', 'ev')).toBe(false);
    expect(hasVerifier('saddle', 'kt')).toBe(true);
  });

  it('a PIN chosen anew takes the place of the old one', async () => {
    const derive = quick();
    await keepVerifier('saddle', 'ev', right, derive);
    await keepVerifier('saddle', 'ev', { pin: '8281', setAt: '2031-01-18T07:00:00.000Z' }, derive);
    const own = ownVerifier('saddle', 'ev')!;
    const with_ = { own, derive, now: () => 0 };
    expect(await checkHere('saddle', 'ev', '2718', with_)).toEqual({ is: 'wrong' });
    expect(await checkHere('saddle', 'ev', '8281', with_)).toEqual({ is: 'right' });
  });

  it.each(['{"setAt":"x"}', '{"salt":1,"hash":2,"setAt":3}', '7', 'no JSON'])('%s is no verifier', (text) => {
    stored.set('firnbook.pin.saddle.ev', text);
    expect(ownVerifier('saddle', 'ev')).toBeNull();
  });
});

describe('A6: guessing on a tablet while the camp computer is away', () => {
  storageHere();
  const start = Date.parse('2031-01-17T09:40:00Z');

  async function keptHere() {
    const derive = quick();
    await keepVerifier('saddle', 'ev', right, derive);
    derive.calls = 0;
    const clock = { now: start };
    // Each call reads what is kept, as after a reload.
    const give = (pin: string) =>
      checkHere('saddle', 'ev', pin, { own: ownVerifier('saddle', 'ev')!, derive, now: () => clock.now });
    return { derive, clock, give };
  }

  it('of 1,000 in a minute at most 10 are worked out, over any number of reloads', async () => {
    const { derive, clock, give } = await keptHere();
    for (let number = 0; number < 1000; number += 1) {
      await give(String(4000 + number));
      clock.now += 60;
    }
    expect(derive.calls).toBeGreaterThan(0);
    expect(derive.calls).toBeLessThanOrEqual(10);
  });

  it('control: where the count is lost between them, all 1,000 are', async () => {
    const { derive, give } = await keptHere();
    for (let number = 0; number < 1000; number += 1) {
      await give(String(4000 + number));
      localStorage.removeItem('firnbook.pin-guesses.saddle.ev');
    }
    expect(derive.calls).toBe(1000);
  });

  it('the wait is told in seconds, also for the right PIN, and a right one forgets the wrong ones', async () => {
    const { clock, give } = await keptHere();
    for (const pin of ['4001', '4002', '4003']) expect(await give(pin)).toEqual({ is: 'wrong' });
    expect(await give('2718')).toEqual({ is: 'wait', seconds: 60 });
    clock.now += minute;
    expect(await give('2718')).toEqual({ is: 'right' });
    expect(await give('4004')).toEqual({ is: 'wrong' });
  });

  it('of many at once three are worked out', async () => {
    const { derive, give } = await keptHere();
    await Promise.all(Array.from({ length: 40 }, (_, number) => give(String(4000 + number))));
    expect(derive.calls).toBe(3);
  });

  it('a clock that is set back by a year shortens no wait, and makes none of a year', async () => {
    const { clock, give } = await keptHere();
    for (const pin of ['4001', '4002', '4003']) await give(pin);
    clock.now -= 365 * 24 * 60 * minute;
    expect(await give('2718')).toEqual({ is: 'wait', seconds: 60 });
    clock.now += minute;
    expect(await give('2718')).toEqual({ is: 'right' });
  });

  it('a colleague on the same tablet is not kept waiting', async () => {
    const { derive, clock, give } = await keptHere();
    await keepVerifier('saddle', 'kt', { pin: '31415', setAt: right.setAt }, derive);
    for (let number = 0; number < 9; number += 1) await give(String(4000 + number));
    const own = ownVerifier('saddle', 'kt')!;
    expect(await checkHere('saddle', 'kt', '31415', { own, derive, now: () => clock.now })).toEqual({
      is: 'right',
    });
  });
});
