import { request as askPlain, Agent as PlainAgent } from 'node:http';
import { Agent, request as askSecure } from 'node:https';
import { runInNewContext } from 'node:vm';
import { fastify } from 'fastify';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from '../crew.suite.ts';
import { ask, type Camp, openCamp } from './camp.suite.ts';

/** Mulberry32 (public domain, from memory): a test's bodies are the same in every run. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** What broke servers before: names of prototypes, numbers that are none, halves of signs, signs that steer. */
const keys = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'have',
  'offer',
  'campaign',
];
keys.push(
  'protocol',
  'entries',
  'secret',
  'name',
  'generation',
  'length',
  '',
  '\\u005f_proto__',
  '__proto\\u005f_',
);
const leaves = [
  '1e999',
  '-1e999',
  '-0',
  '1e-400',
  '9007199254740993',
  'null',
  'true',
  '""',
  '[[]]',
  '{"x":1}',
];
leaves.push('{"polluted":"yes"}', '"\\ud800"', '"\\udfff\\ud800"', '"\\u0000"', '"\ufeff"', '"../../etc"');
leaves.push('"=1+1"', '"%s%n"', `"${'a'.repeat(300)}"`, '"\u202e"', '"<script>"');
const noJson = ['NaN', 'Infinity', '0x10', '01', "'x'", 'undefined', '{,}'];

function body(next: () => number, ends: readonly string[], depth = 0): string {
  const pick = <T>(all: readonly T[]): T => all[Math.floor(next() * all.length)]!;
  const kind = next();
  if (depth > 3 || kind < 0.3) return pick(ends);
  const parts = Array.from({ length: 1 + Math.floor(next() * 4) }, () => body(next, ends, depth + 1));
  if (kind < 0.45) return `[${parts.join(',')}]`;
  return `{${parts.map((part) => `"${pick(keys)}":${part}`).join(',')}}`;
}

function hostileBodies(count: number): readonly string[] {
  const next = chance(20310117);
  return Array.from({ length: count }, (_, index) => {
    const whole = body(next, index % 7 === 0 ? [...leaves, ...noJson] : leaves);
    if (index % 23 === 0) return whole.slice(0, Math.floor(next() * whole.length));
    if (index % 29 === 0) return `${'['.repeat(20_000)}${whole}`;
    if (index % 31 === 0) return `{"a":${'{"a":'.repeat(5_000)}1${'}'.repeat(5_000)}}`;
    return whole;
  });
}

const bodies = hostileBodies(10_000);
const isPolluted = () => Object.keys(Object.prototype).length > 0 || ({} as { x?: unknown }).x !== undefined;
const inside = /node_modules|\.[jt]s:\d|\n\s+at |TypeError|SyntaxError/;

/** What, where and what to do; in refusals of devices also why. */
function isInWords(text: string): boolean {
  const { what, where, mend } = JSON.parse(text) as Record<string, unknown>;
  return [what, where, mend].every((one) => typeof one === 'string' && one !== '');
}

describe('controls: these bodies have teeth', () => {
  it('merged the naive way they reach the prototype of every object', () => {
    // In a world of its own, whose prototypes nobody else uses.
    const reached = runInNewContext(
      `
      const merge = (into, from) => {
        for (const [key, value] of Object.entries(from)) {
          const there = into[key];
          if (typeof value === 'object' && value && typeof there === 'object' && there) merge(there, value);
          else if (typeof there !== 'function') into[key] = value;
        }
      };
      let reached = 0;
      for (const text of bodies) {
        try {
          merge({}, JSON.parse(text));
        } catch {}
        const polluted = Object.keys(Object.prototype);
        if (polluted.length > 0) reached += 1;
        for (const key of polluted) delete Object.prototype[key];
      }
      reached;
      `,
      { bodies: [...bodies] },
    ) as number;
    expect(reached).toBeGreaterThan(100);
    expect(isPolluted()).toBe(false);
  });

  it('a route that takes them at their word fails, and the look at the answers sees it', async () => {
    const app = fastify();
    app.post('/', async (request) => (request.body as { have: { offer: object } }).have.offer.toString());
    let failed = 0;
    for (const payload of bodies.slice(0, 300)) {
      const headers = { 'content-type': 'application/json' };
      const answer = await app.inject({ method: 'POST', url: '/', payload, headers });
      if (answer.statusCode >= 500) failed += 1;
    }
    await app.close();
    expect(failed).toBeGreaterThan(50);
  });
});

describe('A13, A16: hostile bodies', () => {
  const campaign = newCampaign();
  const plain = new PlainAgent({ keepAlive: true, maxSockets: 20 });
  const secure = new Agent({ keepAlive: true, maxSockets: 20 });
  const wide = new Agent({ keepAlive: true, maxSockets: 2001 });
  let camp: Camp;
  /** Several, since one device may not ask so fast (pace.ts). */
  const cookies: string[] = [];
  let sentSoFar = 0;

  beforeAll(async () => {
    camp = await openCamp();
    const device = await tablet(campaign);
    await device.write([runLogged(7)]);
    await sync(device, camp.server.address);
    for (let index = 1; index <= 20; index += 1) cookies.push(await camp.pair(`tablet ${index}`));
  }, 60_000);
  afterAll(async () => {
    plain.destroy();
    secure.destroy();
    wide.destroy();
    await camp.close();
  });

  const send = (at: string, text: string, type = 'application/json', method = 'POST') =>
    new Promise<{ readonly status: number; readonly text: string }>((resolve, reject) => {
      const isNetwork = at.startsWith('https:');
      sentSoFar += 1;
      const cookie = cookies[sentSoFar % cookies.length]!;
      const headers = { 'content-type': type, ...(isNetwork && { cookie }) };
      const sent = isNetwork
        ? askSecure(at, { method, headers, agent: secure, ca: camp.authority })
        : askPlain(at, { method, headers, agent: plain });
      sent.once('error', reject);
      sent.once('response', (response) => {
        let said = '';
        response.on('data', (part) => {
          said += String(part);
        });
        response.once('end', () => resolve({ status: response.statusCode ?? 0, text: said }));
      });
      sent.end(text);
    });

  it('10,000 of them over all routes that take JSON: no fault, no pollution, words without insides', async () => {
    const routes = [
      () => `${camp.server.address}/api/campaigns/${campaign}/exchange`,
      () => `${camp.network}/api/campaigns/${campaign}/exchange`,
      () => `${camp.network}/api/campaigns/__proto__/exchange`,
      () => `${camp.network}/api/pairing`,
      () => `${camp.server.address}/api/sticks/constructor/recover`,
      () => `${camp.server.address}/api/devices/__proto__/revoke`,
      () => `${camp.server.address}/api/pairing/offers`,
    ];
    const statuses: Record<number, number> = {};
    const bad: string[] = [];
    for (let from = 0; from < bodies.length; from += 40) {
      const group = bodies.slice(from, from + 40);
      await Promise.all(
        group.map(async (text, index) => {
          const at = routes[(from + index) % routes.length]!();
          const answer = await send(at, text);
          statuses[answer.status] = (statuses[answer.status] ?? 0) + 1;
          const isComplaint = answer.status < 400 || isInWords(answer.text);
          if (answer.status >= 500 || !isComplaint || inside.test(answer.text))
            bad.push(`${at} ${answer.status} ${text.slice(0, 80)} -> ${answer.text.slice(0, 200)}`);
        }),
      );
    }
    expect(bad).toEqual([]);
    expect(isPolluted()).toBe(false);
    expect(statuses[400]).toBeGreaterThan(3000);
    const held = await fetch(`${camp.server.address}/api/campaigns/${campaign}/digest`);
    expect(((await held.json()) as { entries: number }).entries).toBe(1);
  }, 300_000);

  it.each([
    ['pairing', '/api/pairing', 64 * 1024],
    ['recover', '/api/sticks/x/recover', 64 * 1024],
    ['exchange', `/api/campaigns/${campaign}/exchange`, 8 * 1024 * 1024],
  ])('a body of %s past its limit is 413, and one below it is read', async (_what, path, limit) => {
    const filled = (bytes: number) => `{"secret":"${'a'.repeat(bytes)}"}`;
    expect((await send(`${camp.network}${path}`, filled(limit))).status).toBe(413);
    expect((await send(`${camp.network}${path}`, filled(limit - 100))).status).not.toBe(413);
  });

  it.each([
    'text/plain',
    'application/xml',
    'multipart/form-data; boundary=x',
    'application/json; charset=utf-16',
  ])('as %s it is refused, never guessed at', async (type) => {
    expect([400, 415]).toContain((await send(`${camp.network}/api/pairing`, '{"secret":"x"}', type)).status);
  });

  it('names in addresses that mean something to JavaScript or to a disk find nothing', async () => {
    const names = [
      '__proto__',
      'constructor',
      '..',
      '%2e%2e%2fnetwork',
      'a%00b',
      '\ufffd'.repeat(30),
      'x'.repeat(127),
    ];
    for (const name of names.map(encodeURI)) {
      for (const path of [`/api/campaigns/${name}/digest`, `/api/sticks/${name}/generations`]) {
        const { status } = await send(`${camp.network}${path}`, '', 'application/json', 'GET');
        expect([400, 404]).toContain(status);
      }
    }
  });

  it('A6: a device that runs wild is slowed down, then told to come again; no other one waits', async () => {
    const wild = await camp.pair('wild one');
    const calm = await camp.pair('calm one');
    const get = (cookie: string) =>
      ask(`${camp.network}/api/devices`, { ca: camp.authority, agent: wide, headers: { cookie } });
    const answers = Promise.all(Array.from({ length: 2000 }, () => get(wild)));
    const began = performance.now();
    expect((await get(calm)).status).toBe(200);
    const calmTook = performance.now() - began;
    const all = await answers;
    const refused = all.filter(({ status }) => status === 429);
    expect(refused.length).toBeGreaterThan(0);
    expect(refused.every(({ text, headers }) => isInWords(text) && headers['retry-after'] === '5')).toBe(
      true,
    );
    expect(all.filter(({ status }) => status === 200).length).toBe(2000 - refused.length);
    // the wild one's last answers took five seconds
    expect(calmTook).toBeLessThan(performance.now() - began);
  }, 60_000);
});
