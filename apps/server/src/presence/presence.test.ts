import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { campaignPaths } from '@firnbook/storage/sqlite';
import { describe, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from '../crew.suite.ts';
import { inFolder } from '../folders.suite.ts';
import { startServer } from '../start.ts';
import { campItself, openSeen } from './seen.ts';
import { type DeviceState, readState } from './state.ts';

const state: DeviceState = {
  device: '01930000-0000-7000-8000-00000000000a',
  name: 'Tablet 3F2A',
  entries: 48,
  unsent: 12,
  clockOff: -93_000,
  persistence: 'promised',
  copies: 2,
  room: 'whole',
  ballast: 16_777_216,
  battery: { level: 0.43, charging: false },
};
const quiet = () => undefined;
const start = (dataFolder: string) => startServer({ dataFolder, webFolder: dataFolder, port: 0, log: quiet });

function tell(address: string, campaign: string, body: string, type = 'application/json') {
  return fetch(`${address}/api/campaigns/${campaign}/presence`, {
    method: 'POST',
    headers: { 'content-type': type },
    body,
  });
}
const look = async (address: string, campaign: string): Promise<unknown> =>
  (await fetch(`${address}/api/campaigns/${campaign}/presence`)).json();

/** A server that holds a campaign of one entry. */
async function camp(folder: string) {
  const campaign = newCampaign();
  const server = await start(folder);
  const device = await tablet(campaign);
  await device.write([runLogged(5)]);
  await sync(device, server.address);
  return { campaign, server, file: join(campaignPaths(folder, campaign).folder, 'presence.json') };
}

describe('presence', () => {
  it('what a device says of itself is told to the crew with its age, the last word alone; the record holds none of it', async () => {
    await inFolder(async (folder) => {
      const { campaign, server } = await camp(folder);
      const digest = async () => (await fetch(`${server.address}/api/campaigns/${campaign}/digest`)).text();
      const before = await digest();
      expect(await look(server.address, campaign)).toEqual([]);
      expect((await tell(server.address, campaign, JSON.stringify(state))).status).toBe(200);
      const later = { ...state, unsent: 3, more: 'of a later version' };
      expect((await tell(server.address, campaign, JSON.stringify(later))).status).toBe(200);
      const { more, ...known } = later;
      expect(await look(server.address, campaign)).toEqual([{ ...known, ago: expect.any(Number) }]);
      expect(await digest()).toBe(before);
      await server.close();
    });
  });

  it('a restarted server knows when a device was last seen, and what was only on it then', async () => {
    await inFolder(async (folder) => {
      const { campaign, server, file } = await camp(folder);
      await tell(server.address, campaign, JSON.stringify(state));
      await server.close();
      // five hours pass
      const [kept] = JSON.parse(readFileSync(file, 'utf8'));
      const seenAt = new Date(Date.parse(kept.seenAt) - 5 * 3_600_000).toISOString();
      writeFileSync(file, JSON.stringify([{ ...kept, seenAt }]));
      const again = await start(folder);
      const [line] = (await look(again.address, campaign)) as [{ ago: number; unsent: number }];
      expect(line.unsent).toBe(12);
      expect(line.ago / 3_600_000).toBeCloseTo(5, 1);
      await again.close();
    });
  });

  it('a file that can not be read costs what it told, and nothing else', async () => {
    await inFolder(async (folder) => {
      const { campaign, server, file } = await camp(folder);
      await server.close();
      for (const torn of ['[{"dev', '{}', '[null, 7, {"device":"x"}]']) {
        writeFileSync(file, torn);
        const again = await start(folder);
        expect(await look(again.address, campaign)).toEqual([]);
        expect((await tell(again.address, campaign, JSON.stringify(state))).status).toBe(200);
        expect(await look(again.address, campaign)).toHaveLength(1);
        await again.close();
      }
    });
  });

  it.each([
    ['a list', '[]', 400],
    ['null', 'null', 400],
    ['half an object', '{"device":', 400],
    ['a prototype', '{"__proto__":{"x":1}}', 400],
    ['a path for a device', { device: '../../journal' }, 400],
    ['a long device', { device: 'd'.repeat(129) }, 400],
    ['a long name', { name: 'n'.repeat(61) }, 400],
    ['a name of two lines', { name: 'Tablet\nall is well' }, 400],
    ['entries below none', { entries: -1 }, 400],
    ['half an entry', { unsent: 0.5 }, 400],
    ['endless entries', JSON.stringify(state).replace('48', '1e999'), 400],
    ['a clock of words', { clockOff: 'right' }, 400],
    ['an endless clock', JSON.stringify(state).replace('-93000', '1e999'), 400],
    ['a promise of another kind', { persistence: 'sworn' }, 400],
    ['three copies', { copies: 3 }, 400],
    ['another room', { room: 'hasOwnProperty' }, 400],
    ['a ballast below none', { ballast: -4 }, 400],
    ['a battery that is more than full', { battery: { level: 1.2, charging: true } }, 400],
    ['a battery of nothing', { battery: {} }, 400],
    ['5 kB', { more: 'x'.repeat(5000) }, 413],
  ])('%s is refused with words, and nothing is noted', async (_what, wrong, status) => {
    await inFolder(async (folder) => {
      const { campaign, server } = await camp(folder);
      const body = typeof wrong === 'string' ? wrong : JSON.stringify({ ...state, ...wrong });
      const answer = await tell(server.address, campaign, body);
      expect(answer.status).toBe(status);
      expect(Object.keys((await answer.json()) as object).sort()).toEqual(['mend', 'what', 'where']);
      expect(await look(server.address, campaign)).toEqual([]);
      await server.close();
    });
  });

  it('a campaign that is not here is 404 and makes none; another type than JSON is 415', async () => {
    await inFolder(async (folder) => {
      const { campaign, server } = await camp(folder);
      for (const id of [newCampaign(), 'constructor', '__proto__', '..%2f..']) {
        expect((await tell(server.address, id, JSON.stringify(state))).status).toBe(404);
        expect((await fetch(`${server.address}/api/campaigns/${id}/presence`)).status).toBe(404);
      }
      expect((await tell(server.address, campaign, JSON.stringify(state), 'text/plain')).status).toBe(415);
      await server.close();
    });
  });

  it('a clock that is wrong by decades is told as a year', () => {
    expect(readState({ ...state, clockOff: 1e15 })).toMatchObject({ clockOff: 366 * 86_400_000 });
  });

  it('201 devices are too many, until one has been gone for two months', async () => {
    await inFolder(async (folder) => {
      let now = Date.parse('2031-01-17T09:40:00Z');
      const seen = openSeen(join(folder, 'presence.json'), quiet, () => now);
      const one = (number: number) => ({ ...state, device: `d${number}`, unsent: number });
      for (let number = 0; number < 200; number += 1) {
        now += 1000;
        expect(seen.note(one(number), campItself)).toBe(true);
      }
      expect(seen.note(one(200), campItself)).toBe(false);
      expect(seen.note({ ...one(7), unsent: 4 }, campItself)).toBe(true);
      now += 61 * 86_400_000;
      expect(seen.note(one(201), campItself)).toBe(true);
      expect(seen.list()).toHaveLength(200);
      expect(seen.list().some(({ device }) => device === 'd0')).toBe(false);
    });
  });

  it('the file is written at once when what is unsent changes, else now and then, and at the end', async () => {
    await inFolder(async (folder) => {
      const file = join(folder, 'presence.json');
      let now = Date.parse('2031-01-17T09:40:00Z');
      const seen = openSeen(file, quiet, () => now);
      const onDisk = () => JSON.parse(readFileSync(file, 'utf8'))[0];
      seen.note(state, campItself);
      now += 10_000;
      seen.note({ ...state, entries: 49 }, campItself);
      expect(onDisk().entries).toBe(48);
      seen.note({ ...state, unsent: 0 }, campItself);
      expect(onDisk().unsent).toBe(0);
      now += 10_000;
      seen.note({ ...state, unsent: 0, entries: 50 }, campItself);
      seen.close();
      expect(onDisk()).toMatchObject({ entries: 50, seenAt: '2031-01-17T09:40:20.000Z' });
    });
  });
});
