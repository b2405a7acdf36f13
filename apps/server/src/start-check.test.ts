import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { campaignPaths, lockFolder, openSqliteStore, verifyJournal } from '@firnbook/storage/sqlite';
import Database from 'better-sqlite3';
import type { FastifyInstance } from 'fastify';
import { describe, expect, it } from 'vitest';
import { type Campaigns, openCampaigns } from './campaigns.ts';
import { newCampaign, runLogged, tablet } from './crew.suite.ts';
import { inFolder } from './folders.suite.ts';
import { campNetwork, openDevices } from './network/index.ts';
import { buildApp } from './start.ts';
import { watchSticks } from './sticks/index.ts';

const quiet = () => undefined;

/** A journal of so many entries in a data folder. */
async function journal(data: string, entries: number): Promise<string> {
  const device = await tablet(newCampaign());
  for (let from = 0; from < entries; from += 500)
    await device.write(
      Array.from({ length: Math.min(500, entries - from) }, (_, at) => runLogged(from + at)),
    );
  const store = openSqliteStore(campaignPaths(data, device.campaign).journal, device.campaign);
  await store.append(device.ledger.entries().map(({ sealed }) => sealed));
  await store.close();
  return device.campaign;
}

/** The doors of a server over these campaigns. */
async function withApp(
  folder: string,
  campaigns: Campaigns,
  work: (app: FastifyInstance) => Promise<void>,
): Promise<void> {
  const web = join(folder, 'web');
  mkdirSync(web);
  writeFileSync(join(web, 'index.html'), 'the screens');
  const sticks = watchSticks(folder, campaigns, quiet);
  const devices = openDevices(folder);
  const network = campNetwork(folder, quiet);
  const options = { dataFolder: folder, webFolder: web, log: quiet };
  const app = await buildApp({ campaigns, sticks, devices, network }, options);
  try {
    await work(app);
  } finally {
    await app.close();
    devices.close();
    await sticks.stop();
    await network.close();
  }
}

const get = (app: FastifyInstance, url: string) => app.inject({ url, headers: { host: '127.0.0.1:7411' } });

describe('the check of every journal at the start', () => {
  it('the smallest journal is ready first; nothing is known of another before all of it is checked', () =>
    inFolder(async (folder) => {
      const [big, small] = [await journal(folder, 8_500), await journal(folder, 3)];
      const lock = lockFolder(folder, 'the test');
      const campaigns = openCampaigns(lock, quiet);
      expect(campaigns.open.size).toBe(0);
      await campaigns.checked(small);
      expect([...campaigns.open.keys()]).toEqual([small]);
      await campaigns.checked(big);
      expect(campaigns.open.get(big)?.replica.ledger.size).toBe(8_500);
      await campaigns.close();
      lock.release();
    }));

  it('ends where the server closes meanwhile: the journal is left as it is', () =>
    inFolder(async (folder) => {
      const [big, small] = [await journal(folder, 8_500), await journal(folder, 3)];
      const lock = lockFolder(folder, 'the test');
      const campaigns = openCampaigns(lock, quiet);
      await campaigns.checked(small);
      await campaigns.close();
      lock.release();
      expect([...campaigns.open.keys(), ...campaigns.closed.keys()]).toEqual([small]);
      expect(verifyJournal(campaignPaths(folder, big).journal)).toMatchObject({ ok: true, entries: 8_500 });
    }));

  it('rule 15: a damaged journal is open for reading alone when its check is done, and the others are whole', () =>
    inFolder(async (folder) => {
      const [damaged, sound] = [await journal(folder, 400), await journal(folder, 30)];
      const file = campaignPaths(folder, damaged).journal;
      const bytes = readFileSync(file);
      const at = bytes.indexOf('"number":"200"');
      bytes.write('"number":"201"', at);
      writeFileSync(file, bytes);
      const lock = lockFolder(folder, 'the test');
      const campaigns = openCampaigns(lock, quiet);
      await campaigns.checked();
      expect(campaigns.open.get(damaged)?.store.damage.length).toBeGreaterThan(0);
      await expect(campaigns.open.get(damaged)?.replica.write([runLogged(1)])).rejects.toThrow(/damaged/);
      expect(campaigns.open.get(sound)?.store.damage).toEqual([]);
      await campaigns.close();
      lock.release();
      expect(readFileSync(file).equals(bytes)).toBe(true);
    }));
});

describe('a journal so large that its structure is checked in a thread of its own', () => {
  it('is open where both are sound, and for reading alone where only the structure is not', () =>
    inFolder(async (folder) => {
      const large = await journal(folder, 10_000);
      const file = campaignPaths(folder, large).journal;
      expect(statSync(file).size).toBeGreaterThan(8 * 1024 * 1024);
      const damageAtStart = async () => {
        const lock = lockFolder(folder, 'the test');
        const campaigns = openCampaigns(lock, quiet);
        await campaigns.checked();
        const { store, replica } = campaigns.open.get(large)!;
        await campaigns.close();
        lock.release();
        expect(replica.ledger.size).toBe(10_000);
        return store.damage.map(({ what }) => what);
      };
      expect(await damageAtStart()).toEqual([]);
      // Every row is as it was: only the structure's check can tell.
      const db = new Database(file);
      db.exec('DROP TRIGGER entries_are_never_changed');
      db.close();
      expect(await damageAtStart()).toEqual(['The guard against changing entries was removed from the file']);
    }));
});

describe('what is served while journals are being checked', () => {
  it('the screens, the health and the campaigns that are ready; a request about another waits and is answered', () =>
    inFolder(async (folder) => {
      const [late, ready] = [await journal(folder, 2), await journal(folder, 3)];
      const lock = lockFolder(folder, 'the test');
      const campaigns = openCampaigns(lock, quiet);
      await campaigns.checked();
      let finish: () => void = () => undefined;
      const check = new Promise<void>((resolve) => {
        finish = resolve;
      });
      let isChecked = false;
      const slow = { ...campaigns, checked: (id?: string) => (id === ready ? Promise.resolve() : check) };
      await withApp(folder, slow, async (app) => {
        const digest = (id: string) => `/api/campaigns/${id}/digest`;
        const waiting = [digest(late), '/api/campaigns', '/api/sticks'].map(async (url) => {
          const answer = await get(app, url);
          return { url, isEarly: !isChecked, status: answer.statusCode };
        });
        expect((await get(app, '/api/health')).json()).toMatchObject({ product: 'firnbook' });
        expect((await get(app, '/')).body).toBe('the screens');
        expect((await get(app, `/c/${late}/B/log`)).body).toBe('the screens');
        expect((await get(app, digest(ready))).json()).toMatchObject({ entries: 3 });
        isChecked = true;
        finish();
        for (const answer of await Promise.all(waiting))
          expect(answer).toEqual({ url: answer.url, isEarly: false, status: 200 });
      });
      await campaigns.close();
      lock.release();
    }));

  it('control: without waiting a campaign that is still being checked would not be found', () =>
    inFolder(async (folder) => {
      const lock = lockFolder(folder, 'the test');
      const campaigns = openCampaigns(lock, quiet);
      const hasty = { ...campaigns, checked: () => Promise.resolve() };
      await withApp(folder, hasty, async (app) => {
        expect((await get(app, `/api/campaigns/${newCampaign()}/digest`)).statusCode).toBe(404);
      });
      await campaigns.close();
      lock.release();
    }));
});
