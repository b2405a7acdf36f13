import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { coverageOf } from '@firnbook/journal';
import { listBackups, lockFolder, nameStick } from '@firnbook/storage/sqlite';
import { afterEach, describe, expect, it } from 'vitest';
import { type Campaigns, openCampaigns } from '../campaigns.ts';
import { newCampaign, runLogged, sync, tablet } from '../crew.suite.ts';
import { temporaryFolder } from '../folders.suite.ts';
import { startServer } from '../start.ts';
import { knowStick, verifiedBackups } from './known.ts';
import { findSticks } from './places.ts';
import { watchSticks } from './watch.ts';

const folder = temporaryFolder();
const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** A data folder with a server and a stick that lies in a folder. */
async function camp(name: string) {
  const data = join(folder.path, name, 'data');
  const place = join(folder.path, name, 'stick');
  mkdirSync(place, { recursive: true });
  const stick = nameStick(place, { id: `stick-${name}`, name: 'red' });
  mkdirSync(data, { recursive: true });
  knowStick(data, { ...stick, folder: place, tested: null });
  return { data, place, stick };
}

async function watched(data: string, now: () => number = Date.now) {
  const lock = lockFolder(data, 'the test');
  const campaigns: Campaigns = openCampaigns(lock, () => undefined);
  await campaigns.checked();
  const said: string[] = [];
  const sticks = watchSticks(data, campaigns, (line) => void said.push(line), now);
  closing.push(async () => {
    await sticks.stop();
    await campaigns.close();
    lock.release();
  });
  return { sticks, campaigns, said };
}

async function logged(data: string, campaign: string, numbers: readonly number[]) {
  const server = await startServer({ dataFolder: data, webFolder: data, port: 0, log: () => undefined });
  const device = await tablet(campaign);
  await device.write(numbers.map((number) => runLogged(number)));
  await sync(device, server.address);
  await server.close();
  return device;
}

describe('a stick that was named once', () => {
  it('is written to by itself, read back, and the ticks rest on what was read back', async () => {
    const { data, place, stick } = await camp('by-itself');
    const campaign = newCampaign();
    const device = await logged(data, campaign, [1, 2, 3]);
    const { sticks, campaigns } = await watched(data);
    await sticks.look();
    const [backup] = sticks.backups(campaign);
    expect(backup).toMatchObject({
      stick: stick.id,
      generation: 1,
      entries: campaigns.open.get(campaign)!.replica.ledger.size,
    });
    const second = coverageOf(device.ledger, backup!.heads);
    expect(device.ledger.entries().every((entry) => second.holds(entry))).toBe(true);
    await device.write([runLogged(4)]);
    expect(device.ledger.entries().filter((entry) => !second.holds(entry))).toHaveLength(1);
    expect(listBackups(place, campaign)).toHaveLength(1);
    expect(sticks.states()).toMatchObject([{ name: 'red', isIn: true, trouble: null }]);
  });

  it('gets no second generation of the same entries, and a new one when it comes back', async () => {
    const { data, place } = await camp('again');
    const campaign = newCampaign();
    await logged(data, campaign, [1]);
    let hour = Date.now();
    const { sticks, campaigns } = await watched(data, () => hour);
    await sticks.look();
    await sticks.look();
    expect(listBackups(place, campaign)).toHaveLength(1);
    const { replica } = campaigns.open.get(campaign)!;
    await replica.write([runLogged(2)]);
    await sticks.look();
    // it stays in: not within five minutes of the last one
    expect(listBackups(place, campaign)).toHaveLength(1);
    hour += 6 * 60_000;
    await sticks.look();
    expect(listBackups(place, campaign)).toHaveLength(2);
    await replica.write([runLogged(3)]);
    renameSync(place, `${place}-away`);
    await sticks.look();
    expect(sticks.states()).toMatchObject([{ isIn: false }]);
    renameSync(`${place}-away`, place);
    await sticks.look();
    expect(listBackups(place, campaign)).toHaveLength(3);
  });

  it('that can not be written says so, and what was verified before stays', async () => {
    const { data, place } = await camp('broken');
    const campaign = newCampaign();
    await logged(data, campaign, [1]);
    const { sticks, campaigns } = await watched(data, () => Date.now() + 3_600_000);
    await sticks.look();
    const before = verifiedBackups(data);
    await campaigns.open.get(campaign)!.replica.write([runLogged(2)]);
    // a file where the folder of the next generation has to be made
    writeFileSync(join(place, campaign, `generation-0002.unfinished-${process.pid}`), 'in the way');
    await sticks.look();
    expect(verifiedBackups(data)).toEqual(before);
    expect(sticks.states()[0]!.trouble).toMatchObject({ where: 'stick red' });
  });

  it('is known by the file on it, not by its place; a stranger is left alone', async () => {
    const { place, stick } = await camp('places');
    const stranger = join(folder.path, 'places', 'stranger');
    mkdirSync(stranger);
    nameStick(stranger, { id: 'stick-of-others', name: 'red' });
    const known = { ...stick, folder: place, tested: null };
    expect([...findSticks([known])]).toEqual([[stick.id, place]]);
    expect([...findSticks([{ ...known, folder: stranger }])]).toEqual([]);
    expect([...findSticks([])]).toEqual([]);
  });
});

describe('bringing back', () => {
  it('a blank camp computer takes a campaign from the stick while it runs, and tablets bring what is newer', async () => {
    const { data, place, stick } = await camp('lost');
    const campaign = newCampaign();
    const device = await logged(data, campaign, [1, 2]);
    const first = await watched(data);
    await first.sticks.look();
    for (const close of closing.splice(0)) await close();
    await device.write([runLogged(3)]);

    const blank = join(folder.path, 'blank', 'data');
    mkdirSync(blank, { recursive: true });
    knowStick(blank, { ...stick, folder: place, tested: null });
    const server = await startServer({ dataFolder: blank, webFolder: blank, port: 0, log: () => undefined });
    closing.push(() => server.close());
    const ask = async (path: string, body?: unknown) => {
      const answer = await fetch(
        server.address + path,
        body === undefined
          ? {}
          : { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) },
      );
      return { status: answer.status, says: (await answer.json()) as never };
    };
    const list = await ask(`/api/sticks/${stick.id}/generations`);
    expect(list.says).toMatchObject([{ campaign, isHere: false, generations: [{ generation: 1 }] }]);
    expect((await ask(`/api/sticks/${stick.id}/recover`, { campaign, generation: 7 })).status).toBe(404);
    expect((await ask(`/api/sticks/${stick.id}/recover`, { campaign: '../x', generation: 1 })).status).toBe(
      404,
    );
    expect((await ask(`/api/sticks/nothing/recover`, { campaign, generation: 1 })).status).toBe(404);
    expect((await ask(`/api/sticks/${stick.id}/recover`, [1])).status).toBe(400);
    const back = await ask(`/api/sticks/${stick.id}/recover`, { campaign, generation: 1 });
    expect(back.status).toBe(201);
    expect((await ask(`/api/sticks/${stick.id}/recover`, { campaign, generation: 1 })).says).toMatchObject({
      what: 'This campaign is open here already',
    });
    await sync(device, server.address);
    const { says } = await ask(`/api/campaigns/${campaign}/digest`);
    expect((says as { entries: number }).entries).toBe(device.ledger.size);
    expect(readFileSync(join(place, campaign, 'generation-0001', 'backup.json'), 'utf8')).toContain(
      '"backup": 1',
    );
  });
});
