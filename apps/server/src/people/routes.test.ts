import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Draft, newId } from '@firnbook/journal';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from '../crew.suite.ts';
import { inFolder } from '../folders.suite.ts';
import { ask, type Camp, openCamp } from '../network/camp.suite.ts';
import { startServer } from '../start.ts';

const campaign = newCampaign();
const source = {
  now: Date.now,
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};
const person = (initials: string): Draft => {
  const id = newId(source);
  const observedAt = '2031-01-17T09:30:00+01:00';
  return { id, kind: 'person.logged', version: 1, observedAt, by: id, body: { initials } };
};
const crew = ['EV', 'KT', 'MB', 'RJ', 'SL', 'TN'].map(person);
const [ev, kt, mb, rj, sl, tn] = crew.map(({ id }) => id) as [string, string, string, string, string, string];
const run = runLogged(7);
let camp: Camp;
let one = '';
let two = '';

beforeAll(async () => {
  camp = await openCamp();
  const device = await tablet(campaign);
  await device.write([...crew, run]);
  await sync(device, camp.server.address);
  one = await camp.pair('tablet 1');
  two = await camp.pair('tablet 2');
}, 60_000);
afterAll(() => camp.close());

interface Said {
  readonly status: number;
  readonly wait: number;
  readonly says: Record<string, unknown>;
}

async function send(path: string, body: unknown, cookie: string | null = one): Promise<Said> {
  const address = cookie === null ? camp.server.address : camp.network;
  const answer = await ask(`${address}/api/campaigns/${campaign}/pins/${path}`, {
    method: 'POST',
    ...(cookie !== null && { ca: camp.authority }),
    headers: { 'content-type': 'application/json', ...(cookie !== null && { cookie }) },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });
  return {
    status: answer.status,
    wait: Number(answer.headers['retry-after']),
    says: JSON.parse(answer.text),
  };
}

const state = async (): Promise<readonly { person: string; setAt: string }[]> =>
  (await fetch(`${camp.server.address}/api/campaigns/${campaign}/pins`)).json() as never;

describe('PIN routes', () => {
  it('choose, check and see who has one; the answers hold no more than the time', async () => {
    const chosen = await send(ev, { pin: '2718' });
    expect(chosen).toMatchObject({ status: 201, says: { setAt: expect.any(String) } });
    expect(Object.keys(chosen.says)).toEqual(['setAt']);
    expect(await state()).toEqual([{ person: ev, ...chosen.says }]);
    expect(await send(`${ev}/check`, { pin: '2718' })).toMatchObject({ status: 200, says: chosen.says });
    expect((await send(`${ev}/check`, { pin: '8172' })).status).toBe(403);
    expect((await send(ev, { pin: '5052' }, two)).status).toBe(409);
    expect((await send(ev, { pin: '5051', old: '8172' })).status).toBe(403);
    expect((await send(ev, { pin: '5053', old: '2718' })).status).toBe(201);
  });

  it('somebody without a PIN and a wrong PIN get one and the same answer', async () => {
    await send(tn, { pin: '6174' });
    const wrong = await send(`${tn}/check`, { pin: '6175' });
    const unknown = await send(`${rj}/check`, { pin: '6175' });
    expect({ ...unknown, says: { ...unknown.says, where: '' } }).toEqual({
      ...wrong,
      says: { ...wrong.says, where: '' },
    });
  });

  it('the fourth wrong one waits, with words and seconds; a colleague and the camp computer do not', async () => {
    await send(kt, { pin: '3141' });
    await send(mb, { pin: '1618' });
    for (const pin of ['7001', '7002', '7003']) await send(`${kt}/check`, { pin }, two);
    const refused = await send(`${kt}/check`, { pin: '3141' }, two);
    expect(refused.status).toBe(429);
    expect(refused.wait).toBeGreaterThan(50);
    expect(refused.wait).toBeLessThanOrEqual(60);
    expect(refused.says.mend).toContain('Everybody else can go on');
    expect((await send(`${mb}/check`, { pin: '1618' }, two)).status).toBe(200);
    expect((await send(`${kt}/check`, { pin: '3141' }, one)).status).toBe(200);
    expect((await send(`${kt}/check`, { pin: '3141' }, null)).status).toBe(200);
  });

  it('a reset is for the camp computer alone, and makes room for a first PIN', async () => {
    await send(sl, { pin: '4669' });
    expect((await send(`${sl}/reset`, {})).status).toBe(403);
    expect(await send(`${sl}/reset`, {}, null)).toMatchObject({ status: 200, says: { person: sl } });
    expect((await send(`${sl}/reset`, {}, null)).status).toBe(404);
    expect((await send(sl, { pin: '4670' }, two)).status).toBe(201);
  });

  it.each([
    ['0000', 'tried first'],
    ['1234', 'tried first'],
    ['876543', 'tried first'],
    ['271', 'too short'],
    ['2718281828459', 'too long'],
    ['27 18', 'digits'],
  ])('%s is refused as a new PIN: %s', async (pin, words) => {
    const refused = await send(rj, { pin });
    expect(refused.status).toBe(400);
    expect(refused.says.what).toContain(words);
    expect((await state()).some((line) => line.person === rj)).toBe(false);
  });

  it.each([
    ['nothing', ''],
    ['null', 'null'],
    ['a list', '["2718"]'],
    ['a number', '{"pin":2718}'],
    ['an unknown property', '{"pin":"2718","device":"tablet 3"}'],
    ['a prototype', '{"pin":"2718","__proto__":{"x":1}}'],
    ['an old PIN that is a list', '{"pin":"2718","old":["1"]}'],
    ['words for an old PIN', '{"pin":"2718","old":"last one"}'],
    ['half an object', '{"pin":"27'],
  ])('%s is refused with words by both', async (_what, body) => {
    for (const path of [rj, `${rj}/check`]) {
      const { status, says } = await send(path, body);
      expect(status).toBe(400);
      expect(Object.keys(says).sort()).toEqual(['mend', 'what', 'where']);
    }
  });

  it.each(['27', 'abcd', '٢٧١٨'])('"%s" is not looked at', async (pin) => {
    expect((await send(`${rj}/check`, { pin })).status).toBe(400);
  });

  it('2 kB are too much, and another type than JSON is none', async () => {
    expect((await send(`${rj}/check`, { pin: '2718', old: '1'.repeat(2000) })).status).toBe(413);
  });

  it.each([newId(source), run.id, 'constructor', '__proto__', '..%2f..'])(
    'no PIN is kept for "%s", which is nobody here',
    async (id) => {
      expect((await send(id, { pin: '2718' })).status).toBe(404);
      expect((await state()).some((line) => line.person === id)).toBe(false);
    },
  );

  it('PINs are of one campaign: another one that is here has none of them', async () => {
    const other = await tablet(newCampaign());
    await other.write([runLogged(2)]);
    await sync(other, camp.server.address);
    const path = `${camp.server.address}/api/campaigns/${other.campaign}/pins`;
    expect(await (await fetch(path)).json()).toEqual([]);
    const reset = await fetch(`${path}/${ev}/reset`, { method: 'POST' });
    expect(reset.status).toBe(404);
    expect((await state()).some((line) => line.person === ev)).toBe(true);
  });

  it('where the file can not be read every PIN route says so, and the server works on', async () => {
    await inFolder(async (folder) => {
      const open = (log: (line: string) => void) =>
        startServer({ dataFolder: folder, webFolder: folder, port: 0, log });
      const first = await open(() => undefined);
      const device = await tablet(newCampaign());
      await device.write([runLogged(1)]);
      await sync(device, first.address);
      await first.close();
      const lines: string[] = [];
      const file = join(folder, 'network', 'pins.json');
      mkdirSync(join(folder, 'network'), { recursive: true });
      writeFileSync(file, '[{"campaign":');
      const server = await open((line) => lines.push(line));
      expect(lines.join('\n')).toContain('pins.json can not be read');
      const pins = `${server.address}/api/campaigns/${device.campaign}/pins`;
      expect((await fetch(pins)).status).toBe(503);
      expect((await fetch(`${pins}/${ev}/reset`, { method: 'POST' })).status).toBe(503);
      await device.write([runLogged(2)]);
      await sync(device, server.address);
      await server.close();
    });
  });
});
