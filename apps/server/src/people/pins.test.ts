import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { hash } from '@node-rs/argon2';
import { describe, expect, it } from 'vitest';
import { inFolder } from '../folders.suite.ts';
import { argon2id, decoy, type Hasher, openTurns } from './hasher.ts';
import { openPins, type Pins } from './pins.ts';

const ev = { campaign: 'saddle', person: 'ev' };
const kt = { campaign: 'saddle', person: 'kt' };
const evPin = '2718';
const ktPin = '31415';

/** Counts what is looked at, and takes no time. A verifier of its own form, as the file wants it. */
function quick(): Hasher & { looks: number } {
  const hasher = {
    looks: 0,
    hash: async (pin: string) => `$argon2id$quick$${pin}`,
    verify: async (verifier: string, pin: string) => {
      hasher.looks += 1;
      return verifier === `$argon2id$quick$${pin}`;
    },
  };
  return hasher;
}

/** A clock that a test moves, and pins that take no time. */
async function crew(folder: string) {
  const clock = { now: Date.parse('2031-01-17T09:40:00Z') };
  const hasher = quick();
  const open = () => openPins(folder, { hasher, now: () => clock.now });
  const pins = open();
  await pins.set(ev, evPin, null, 'tablet 1');
  await pins.set(kt, ktPin, null, 'tablet 1');
  hasher.looks = 0;
  return { clock, hasher, pins, open, file: join(folder, 'network', 'pins.json') };
}

const guess = (number: number) => String(4000 + number);

describe('PINs on the camp computer', () => {
  it('the file holds argon2id of 64 MiB and three passes, for this account alone, and no PIN', async () => {
    await inFolder(async (folder) => {
      const pins = openPins(folder);
      expect(await pins.set(ev, evPin, null, 'tablet 1')).toMatchObject({ is: 'set' });
      const file = join(folder, 'network', 'pins.json');
      const text = readFileSync(file, 'utf8');
      expect(text).toMatch(/\$argon2id\$v=19\$m=65536,t=3,p=1\$/);
      expect(text).not.toContain(evPin);
      if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o600);
      const again = openPins(folder);
      expect(await again.check(ev, evPin, 'tablet 1')).toMatchObject({ is: 'right' });
      expect(await again.check(ev, ktPin, 'tablet 1')).toEqual({ is: 'wrong' });
    });
  });

  it('the first PIN is anybody’s who has the initials; another one needs it; a reset makes room for a first one', async () => {
    await inFolder(async (folder) => {
      const { pins, clock } = await crew(folder);
      const [line] = pins.list('saddle');
      expect(line).toEqual({ person: 'ev', setAt: new Date(clock.now).toISOString() });
      expect(pins.list('another')).toEqual([]);
      expect(await pins.set(ev, '8080', null, 'tablet 2')).toEqual({ is: 'set before' });
      expect(await pins.set(ev, '8081', '9999', 'tablet 1')).toEqual({ is: 'wrong' });
      clock.now += 1000;
      expect(await pins.set(ev, '8083', evPin, 'tablet 1')).toMatchObject({ is: 'set' });
      expect(pins.list('saddle')[0]?.setAt).not.toBe(line?.setAt);
      expect(await pins.check(ev, evPin, 'tablet 1')).toEqual({ is: 'wrong' });
      expect(pins.reset(ev)).toBe(true);
      expect(pins.reset(ev)).toBe(false);
      expect(await pins.check(ev, '8083', 'here')).toEqual({ is: 'wrong' });
      expect(await pins.set(ev, '8084', null, 'tablet 3')).toMatchObject({ is: 'set' });
      expect(await pins.check(kt, ktPin, 'tablet 1')).toMatchObject({ is: 'right' });
    });
  });

  it('of two who choose at once one is told that it is taken', async () => {
    await inFolder(async (folder) => {
      const pins = openPins(folder, { hasher: quick() });
      const both = await Promise.all([
        pins.set(ev, '2718', null, 'tablet 1'),
        pins.set(ev, '8281', null, 'tablet 2'),
      ]);
      expect(both.map(({ is }) => is).sort()).toEqual(['set', 'set before']);
    });
  });

  it.each([
    '[{"campaign":',
    '{}',
    '[null]',
    '[{"campaign":"saddle","person":"ev","setAt":"x","verifier":"2718","lastOn":null}]',
  ])('a file of %s is not overwritten, and the words say what to do', async (text) => {
    await inFolder(async (folder) => {
      const { open, file } = await crew(folder);
      writeFileSync(file, text);
      expect(open).toThrow('Move it away, and let the crew choose their PINs again');
      expect(readFileSync(file, 'utf8')).toBe(text);
    });
  });

  it('somebody without a PIN costs the same work as a wrong PIN', async () => {
    await inFolder(async (folder) => {
      const { pins, hasher } = await crew(folder);
      await pins.check({ ...ev, person: 'nobody' }, '2718', 'tablet 1');
      expect(hasher.looks).toBe(1);
      await pins.check(ev, '2719', 'tablet 1');
      expect(hasher.looks).toBe(2);
      const parameters = (verifier: string) => verifier.split('$').slice(1, 4);
      const real = await argon2id().hash('2718');
      expect(parameters(decoy())).toEqual(parameters(real));
      expect(decoy().length).toBe(real.length);
      expect(await argon2id().verify(decoy(), '2718')).toBe(false);
    });
  });

  it('a verifier made by other parameters is still read: they stand in it', async () => {
    const other = await hash('2718', { memoryCost: 19 * 1024, timeCost: 2, parallelism: 1 });
    expect(await argon2id().verify(other, '2718')).toBe(true);
  });
});

describe('A6: guessing', () => {
  /** Guesses that were looked at in one minute, of 1,000 from so many devices in turn. */
  async function lookedAt(pins: Pins, clock: { now: number }, devices: number): Promise<number> {
    let looked = 0;
    for (let number = 0; number < 1000; number += 1) {
      const from = `stranger ${number % devices}`;
      const tried = await pins.check(ev, guess(number), from);
      if (tried.is !== 'too often') looked += 1;
      clock.now += 60;
    }
    return looked;
  }

  it.each([1, 10])(
    'of 1,000 wrong PINs from %i devices in a minute at most 10 are looked at',
    async (devices) => {
      await inFolder(async (folder) => {
        const { pins, clock, hasher } = await crew(folder);
        const looked = await lookedAt(pins, clock, devices);
        expect(looked).toBeGreaterThan(0);
        expect(looked).toBeLessThanOrEqual(10);
        expect(hasher.looks).toBe(looked);
      });
    },
  );

  it('control: where a day lies between them and each is forgotten, all 1,000 are looked at', async () => {
    await inFolder(async (folder) => {
      const { pins, clock, hasher } = await crew(folder);
      for (let number = 0; number < 1000; number += 1) {
        await pins.check(ev, guess(number), 'stranger 0');
        clock.now += 24 * 3_600_000;
      }
      expect(hasher.looks).toBe(1000);
    });
  });

  it('from everywhere at once, the own tablet and the camp computer too, at most 10 in any minute of a day', async () => {
    await inFolder(async (folder) => {
      const { pins, clock } = await crew(folder);
      const taken: number[] = [];
      const end = clock.now + 24 * 3_600_000;
      for (let number = 0; clock.now < end; number += 1) {
        for (const from of ['here', 'tablet 1', 'stranger 1', 'stranger 2'])
          if ((await pins.check(ev, guess(number % 5000), from)).is === 'wrong') taken.push(clock.now);
        clock.now += 5_000;
      }
      for (const at of taken)
        expect(taken.filter((one) => one >= at && one < at + 60_000).length).toBeLessThanOrEqual(10);
      expect(taken.length).toBeLessThan(120);
    });
  });

  it('of 50 at once from one device three are looked at', async () => {
    await inFolder(async (folder) => {
      const { pins, hasher } = await crew(folder);
      const all = Array.from({ length: 50 }, (_, number) => pins.check(ev, guess(number), 'stranger 1'));
      const told = await Promise.all(all);
      expect(hasher.looks).toBe(3);
      expect(told.filter(({ is }) => is === 'too often')).toHaveLength(47);
    });
  });

  it('whoever is guessed at goes on at once: on the own tablet, and at the camp computer; so do colleagues on the tablet that guesses', async () => {
    await inFolder(async (folder) => {
      const { pins, clock } = await crew(folder);
      await pins.check(kt, ktPin, 'stranger 0');
      await lookedAt(pins, clock, 1);
      expect((await pins.check(ev, evPin, 'stranger 0')).is).toBe('too often');
      expect((await pins.check(ev, evPin, 'tablet 1')).is).toBe('right');
      expect((await pins.check(ev, evPin, 'here')).is).toBe('right');
      expect((await pins.check(kt, ktPin, 'stranger 0')).is).toBe('right');
      expect((await pins.check(kt, ktPin, 'tablet 2')).is).toBe('right');
    });
  });

  it('guesses on the own tablet wait there, and not elsewhere', async () => {
    await inFolder(async (folder) => {
      const { pins } = await crew(folder);
      for (let number = 0; number < 9; number += 1) await pins.check(ev, guess(number), 'tablet 1');
      expect((await pins.check(ev, evPin, 'tablet 1')).is).toBe('too often');
      expect((await pins.check(ev, evPin, 'tablet 2')).is).toBe('right');
      // Now that one is the own tablet, and the other one of the others.
      for (let number = 0; number < 9; number += 1) await pins.check(ev, guess(number), 'tablet 3');
      expect((await pins.check(ev, evPin, 'tablet 2')).is).toBe('right');
    });
  });

  it('the own tablet is known again after a restart', async () => {
    await inFolder(async (folder) => {
      const { open, clock } = await crew(folder);
      const again = open();
      await lookedAt(again, clock, 10);
      expect((await again.check(ev, evPin, 'tablet 1')).is).toBe('right');
    });
  });

  it('names that somebody makes up share one count, and keep nobody waiting', async () => {
    await inFolder(async (folder) => {
      const { pins, hasher } = await crew(folder);
      for (let number = 0; number < 1000; number += 1)
        await pins.check({ ...ev, person: `x${number}` }, guess(number), 'tablet 1');
      expect(hasher.looks).toBe(3);
      expect((await pins.check(ev, evPin, 'tablet 1')).is).toBe('right');
    });
  });

  it('the wait is told, grows, and is over when it is over', async () => {
    await inFolder(async (folder) => {
      const { pins, clock } = await crew(folder);
      for (let number = 0; number < 3; number += 1) await pins.check(ev, guess(number), 'stranger 1');
      expect(await pins.check(ev, evPin, 'stranger 1')).toEqual({ is: 'too often', wait: 60_000 });
      clock.now += 60_000;
      expect(await pins.check(ev, guess(4), 'stranger 1')).toEqual({ is: 'wrong' });
      expect(await pins.check(ev, evPin, 'stranger 1')).toEqual({ is: 'too often', wait: 120_000 });
      clock.now += 120_000;
      expect((await pins.check(ev, evPin, 'stranger 1')).is).toBe('right');
      expect((await pins.check(ev, guess(5), 'stranger 1')).is).toBe('wrong');
    });
  });
});

describe('A5: two at once', () => {
  it('two work, the others wait in order, and one too many is told so', async () => {
    const turns = openTurns(2, 3);
    let most = 0;
    let working = 0;
    const ended: number[] = [];
    const work = (number: number) => async () => {
      working += 1;
      most = Math.max(most, working);
      await new Promise((resolve) => setTimeout(resolve, 5));
      working -= 1;
      ended.push(number);
      return number;
    };
    const told = await Promise.all([0, 1, 2, 3, 4, 5].map((number) => turns(work(number))));
    expect(told).toEqual([0, 1, 2, 3, 4, 'busy']);
    expect(most).toBe(2);
    expect(ended).toEqual([0, 1, 2, 3, 4]);
    expect(await turns(work(6))).toBe(6);
  });

  it('work that fails gives its turn on', async () => {
    const turns = openTurns(1, 5);
    const failing = turns(async () => Promise.reject(new Error('no')));
    const next = turns(async () => 'done');
    await expect(failing).rejects.toThrow('no');
    expect(await next).toBe('done');
  });

  it('a guess that nobody had time for is not counted', async () => {
    await inFolder(async (folder) => {
      const hasher: Hasher = { hash: async () => '$argon2id$x', verify: async () => 'busy' };
      const pins = openPins(folder, { hasher });
      await pins.set(ev, evPin, null, 'here');
      for (let number = 0; number < 20; number += 1)
        expect(await pins.check(ev, evPin, 'here')).toEqual({ is: 'busy' });
    });
  });
});
