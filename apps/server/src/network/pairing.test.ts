import { randomBytes } from 'node:crypto';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { Agent } from 'node:https';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { inFolder } from '../folders.suite.ts';
import { ask, type Camp, openCamp } from './camp.suite.ts';
import { openDevices } from './devices.ts';
import { offerFor, openPairing } from './pairing.ts';

describe('A7: an offer to pair', () => {
  let now = Date.UTC(2031, 0, 17, 9, 40);
  const clock = () => now;
  beforeEach(() => {
    now = Date.UTC(2031, 0, 17, 9, 40);
  });

  it('control: fresh, by token or by code, it is taken', () => {
    const pairing = openPairing(clock);
    expect(pairing.take(pairing.offer().token, 'a')).toBe('taken');
    expect(pairing.take(pairing.offer().code, 'a')).toBe('taken');
  });

  it('holds at least 128 bits in the token and 40 in the typed code', () => {
    const pairing = openPairing(clock);
    const offers = Array.from({ length: 400 }, () => pairing.offer());
    expect(Buffer.from(offers[0]!.token, 'base64url').length * 8).toBeGreaterThanOrEqual(128);
    const signs = new Set(offers.flatMap(({ code }) => [...code.replaceAll('-', '')]));
    // 4000 signs of 32: that one of them is missing has a chance of 1e-54.
    expect(signs.size).toBe(32);
    const length = offers[0]!.code.replaceAll('-', '').length;
    expect(length * Math.log2(32)).toBeGreaterThanOrEqual(40);
    expect(new Set(offers.flatMap(({ token, code }) => [token, code])).size).toBe(800);
  });

  it('is good once, whichever of the two was used', () => {
    const pairing = openPairing(clock);
    const one = pairing.offer();
    expect(pairing.take(one.token, 'a')).toBe('taken');
    expect(pairing.take(one.token, 'b')).toBe('wrong');
    expect(pairing.take(one.code, 'c')).toBe('wrong');
  });

  it('is good for ten minutes and not for a millisecond more', () => {
    const pairing = openPairing(clock);
    const [early, late] = [pairing.offer(), pairing.offer()];
    now += offerFor - 1;
    expect(pairing.take(early.token, 'a')).toBe('taken');
    now += 1;
    expect(pairing.take(late.token, 'a')).toBe('wrong');
    expect(offerFor).toBe(600_000);
  });

  it('a typed code is taken in small letters, with spaces, and with the signs that are misread', () => {
    const pairing = openPairing(clock);
    const { code } = pairing.offer();
    const typed = code.toLowerCase().replaceAll('-', ' ').replaceAll('1', 'l').replaceAll('0', 'o');
    expect(pairing.take(typed, 'a')).toBe('taken');
  });

  it('guessed ten thousand times from a thousand addresses: never; and the tablet beside gets in after a minute', () => {
    const pairing = openPairing(clock);
    const offer = pairing.offer();
    const said = { taken: 0, wrong: 0, 'too often': 0 };
    for (let index = 0; index < 10_000; index += 1) {
      const isCode = index % 2 === 0;
      const guess = isCode ? randomBytes(5).toString('hex') : randomBytes(20).toString('base64url');
      said[pairing.take(guess, `10.0.${index % 1000}.1`)] += 1;
    }
    expect(said.taken).toBe(0);
    expect(said['too often']).toBeGreaterThan(0);
    // A token can't be guessed, so it is not held up by guesses of others; a code waits.
    expect(pairing.take(offer.code, '192.168.7.9')).toBe('too often');
    now += 60_000;
    expect(pairing.take(offer.token, '192.168.7.9')).toBe('taken');
  });

  it('eleven wrong ones in a minute from one address: the next right one waits, another address does not', () => {
    const pairing = openPairing(clock);
    const offers = [pairing.offer(), pairing.offer(), pairing.offer()] as const;
    for (let index = 0; index < 10; index += 1) pairing.take(randomBytes(20).toString('base64url'), 'a');
    expect(pairing.take(offers[0].token, 'a')).toBe('too often');
    expect(pairing.take(offers[1].token, 'b')).toBe('taken');
    now += 60_000;
    expect(pairing.take(offers[2].token, 'a')).toBe('taken');
  });
});

describe('A7: pairing over the network', () => {
  let camp: Camp;
  beforeAll(async () => {
    camp = await openCamp();
  }, 60_000);
  afterAll(() => camp.close());

  const pair = (body: unknown, agent?: Agent, at = camp) =>
    ask(`${at.network}/api/pairing`, {
      ...(agent !== undefined && { agent }),
      method: 'POST',
      ca: at.authority,
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
  const campaigns = (cookie: string) =>
    ask(`${camp.network}/api/campaigns`, { ca: camp.authority, headers: { cookie } });

  it('control: with the token of the QR code a device gets in; the same request again does not', async () => {
    const { token } = await camp.offer();
    const body = { secret: token, name: 'tablet 1' };
    const answer = await pair(body);
    expect([answer.status, JSON.parse(answer.text).name]).toEqual([201, 'tablet 1']);
    const cookie = String(answer.headers['set-cookie']).split(';', 1)[0] ?? '';
    expect((await campaigns(cookie)).status).toBe(200);
    const replayed = await pair(body);
    expect([replayed.status, replayed.headers['set-cookie']]).toEqual([403, undefined]);
  });

  it('two at once with one token: one gets in', async () => {
    const { token, code } = await camp.offer();
    const all = await Promise.all([token, code, token].map((secret) => pair({ secret, name: 'tablet' })));
    expect(all.map(({ status }) => status).sort()).toEqual([201, 403, 403]);
  });

  it('10,000 guesses, a hundred at a time: none gets in, no fault', async () => {
    // A camp of its own: this address is held up afterwards.
    const guessed = await openCamp();
    const { token } = await guessed.offer();
    const agent = new Agent({ keepAlive: true, maxSockets: 20 });
    const guess = async (secret: string) => (await pair({ secret, name: 'stranger' }, agent, guessed)).status;
    const statuses: Record<number, number> = {};
    for (let round = 0; round < 100; round += 1) {
      const all = await Promise.all(
        Array.from({ length: 100 }, (_, index) => {
          // The real token with one byte changed is among them.
          const bytes = Buffer.from(token, 'base64url');
          bytes[index % bytes.length]! ^= 1 + (round % 255);
          const secret = index % 2 === 0 ? bytes.toString('base64url') : randomBytes(5).toString('hex');
          return guess(secret);
        }),
      );
      for (const status of all) statuses[status] = (statuses[status] ?? 0) + 1;
    }
    agent.destroy();
    expect(Object.keys(statuses).sort()).toEqual(['403', '429']);
    const list = (await (await fetch(`${guessed.server.address}/api/devices`)).json()) as unknown[];
    expect(list).toEqual([]);
    await guessed.close();
  }, 300_000);

  it.each([
    ['nothing', null],
    ['a list', []],
    ['no name', { secret: 'x' }],
    ['an empty name', { secret: 'x', name: '  ' }],
    ['a name of 41', { secret: 'x', name: 'a'.repeat(41) }],
    ['a name that steers a terminal', { secret: 'x', name: '\u001b[31mred' }],
    ['half a sign', { secret: 'x', name: '\ud83d' }],
    ['a property that nobody knows', { secret: 'x', name: 'tablet', role: 'camp computer' }],
    ['a number', { secret: 7, name: 'tablet' }],
    ['a long secret', { secret: 'x'.repeat(101), name: 'tablet' }],
  ])('%s is refused with 400 and uses no attempt up', async (_what, body) => {
    expect((await pair(body)).status).toBe(400);
  });

  it('the camp computer itself is told that it needs none', async () => {
    const { token } = await camp.offer();
    const answer = await ask(`${camp.server.address}/api/pairing`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ secret: token, name: 'laptop' }),
    });
    expect(answer.status).toBe(409);
  });

  it('a device learns who it is, and gets its cookie for another 400 days; nobody else learns anything', async () => {
    const cookie = await camp.pair('tablet 4');
    const who = (headers: Record<string, string>, at = camp.network) =>
      ask(`${at}/api/device`, { headers, ...(at === camp.network && { ca: camp.authority }) });
    const own = await who({ cookie });
    expect(JSON.parse(own.text)).toEqual({
      isHere: false,
      name: 'tablet 4',
      isPaired: true,
      isRevoked: false,
      publicKey: null,
      challenge: expect.stringMatching(/^[\w-]{43}$/),
    });
    expect(String(own.headers['set-cookie'])).toContain(cookie);
    expect(JSON.parse((await who({})).text)).toEqual({
      isHere: false,
      name: null,
      isPaired: false,
      isRevoked: false,
      publicKey: null,
      challenge: null,
    });
    expect(JSON.parse((await who({}, camp.server.address)).text).isHere).toBe(true);
  });
});

describe('devices', () => {
  let now = Date.UTC(2031, 0, 17, 9, 40);
  const clock = () => now;

  it('of a credential of 256 bits only its SHA-256 lies on the disk, for this account alone', () =>
    inFolder(async (folder) => {
      const { credential, device } = openDevices(folder, clock).add('tablet 1');
      expect(Buffer.from(credential, 'base64url')).toHaveLength(32);
      const file = join(folder, 'network', 'devices.json');
      const text = readFileSync(file, 'utf8');
      expect(text).not.toContain(credential);
      expect(JSON.parse(text)[0].credential).toMatch(/^[0-9a-f]{64}$/);
      expect(statSync(file).mode & 0o777).toBe(0o600);
      expect(openDevices(folder, clock).find(credential)).toEqual({
        id: device.id,
        name: 'tablet 1',
        pairedAt: '2031-01-17T09:40:00.000Z',
        renewedAt: null,
        lastSeen: '2031-01-17T09:40:00.000Z',
        revokedAt: null,
        publicKey: null,
        otherKey: null,
        held: null,
      });
    }));

  it('a list that an older build wrote is read, and the names in it stay', () =>
    inFolder(async (folder) => {
      const { credential } = openDevices(folder, clock).add('tablet 1');
      const file = join(folder, 'network', 'devices.json');
      const old = (JSON.parse(readFileSync(file, 'utf8')) as object[]).map((one) => {
        const { otherKey, held, renewedAt, ...rest } = one as Record<string, unknown>;
        return rest;
      });
      writeFileSync(file, JSON.stringify(old));
      const devices = openDevices(folder, clock);
      expect(devices.find(credential)).toMatchObject({ name: 'tablet 1', otherKey: null, held: null });
      // control: a list of something else is not guessed at
      writeFileSync(file, JSON.stringify([{ name: 'tablet 1' }]));
      expect(() => openDevices(folder, clock)).toThrow('can not be read');
    }));

  it('two of one name are told apart; the name of a revoked one is free again', () =>
    inFolder(async (folder) => {
      const devices = openDevices(folder, clock);
      const first = devices.add('tablet').device;
      expect(devices.add('tablet').device.name).toBe('tablet (2)');
      expect(devices.revoke(first.id)).toBe(true);
      expect(devices.revoke(first.id)).toBe(false);
      expect(devices.add('tablet').device.name).toBe('tablet');
      expect(openDevices(folder, clock).list()).toHaveLength(3);
    }));

  it('when it was last seen is on the disk within five minutes, and at the close', () =>
    inFolder(async (folder) => {
      const devices = openDevices(folder, clock);
      const { id } = devices.add('tablet').device;
      const onDisk = () => openDevices(folder, clock).list()[0]?.lastSeen;
      now += 60_000;
      devices.see(id);
      expect([devices.list()[0]?.lastSeen, onDisk()]).toEqual([
        '2031-01-17T09:41:00.000Z',
        '2031-01-17T09:40:00.000Z',
      ]);
      now += 300_000;
      devices.see(id);
      expect(onDisk()).toBe('2031-01-17T09:46:00.000Z');
      now += 1000;
      devices.see(id);
      devices.close();
      expect(onDisk()).toBe('2031-01-17T09:46:01.000Z');
    }));
});
