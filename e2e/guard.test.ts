import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { canMount, makeDisk, type SmallDisk } from './disk.ts';
import { answer, drillRun, openCampaign, pad } from './first-steps.ts';
import { makeScratch, pagesFolder, type Scratch } from './folders.ts';
import { cutPower, fillDisk } from './guard-rounds.ts';
import { type PagesServer, servePages } from './pages-server.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** Needs root and loop devices; without, these are skipped by name. */
const onDisks = canMount() ? describe : describe.skip;

let scratch: Scratch;
beforeAll(() => {
  scratch = makeScratch('guard');
});
afterAll(() => scratch.remove());

onDisks('B2, B4: a disk of its own that loses its power or fills up (needs root and loop devices)', () => {
  let server: PagesServer;
  beforeAll(async () => {
    server = await servePages(pagesFolder);
  });
  afterAll(() => server.close());

  it('B2: four power cuts take nothing that was acknowledged', async () => {
    const { acknowledged, lost } = await cutPower(server.address, 4, 'ours');
    expect(acknowledged).toBeGreaterThan(80);
    expect(lost).toBe(0);
  });

  it('control: where it is written on behind records that were torn, such cuts take everything', async () => {
    const { acknowledged, lostRounds } = await cutPower(server.address, 10, 'torn log');
    expect(acknowledged).toBeGreaterThan(120);
    expect(lostRounds).toBeGreaterThanOrEqual(1);
  });

  it('control: with the durability that browsers take by themselves, the same cuts take entries', async () => {
    const { acknowledged, lostRounds } = await cutPower(server.address, 3, 'relaxed');
    expect(acknowledged).toBeGreaterThan(60);
    // A busy machine may write some of it down by chance.
    expect(lostRounds).toBeGreaterThanOrEqual(1);
  });

  it('B4: another program fills the disk: entries are refused, none is lost, and it goes on twice', async () => {
    const { lost, refused, wentOn } = await fillDisk(server.address, 1, 'another', true);
    expect({ lost, wentOn }).toEqual({ lost: 0, wentOn: 1 });
    expect(refused).toBeGreaterThan(1);
  });

  it('B4: the tablet fills its disk itself', async () => {
    const { lost, refused, wentOn } = await fillDisk(server.address, 1, 'itself', true);
    expect({ lost, wentOn }).toEqual({ lost: 0, wentOn: 1 });
    expect(refused).toBeGreaterThan(1);
  });

  it('control: without guard and second copy the browser erases what was saved', async () => {
    const { acknowledged, lost } = await fillDisk(server.address, 1, 'another', false);
    expect(acknowledged).toBeGreaterThan(50);
    expect(lost).toBe(acknowledged);
  });
});

let camp: CampComputer;
let tablet: Tablet;
let round = 0;

const isAtCamp = (page: Page) =>
  page.locator('.ticks').getByText('on the camp computer').waitFor({ timeout: 15_000 });
const alarm = (page: Page, words: string) => page.getByRole('alert').getByText(words);
/** Put before the file worker's own code: told so, every file fails as Chromium's then do. */
const breakable = `
  let isBroken = false;
  new BroadcastChannel('files').onmessage = ({ data }) => { isBroken = data; };
  const whole = FileSystemDirectoryHandle.prototype.getFileHandle;
  FileSystemDirectoryHandle.prototype.getFileHandle = function (...all) {
    if (isBroken) return Promise.reject(new DOMException('the state had changed', 'InvalidStateError'));
    return whole.apply(this, all);
  };`;
const save = (page: Page) => page.locator('.question button[type="submit"]').click();

/** The last question of a run is open, and answered with the next press. */
async function beginRun(page: Page, to: string): Promise<void> {
  await save(page);
  await pad(page, to);
  await save(page);
  await page.locator('[data-choice="core"]').waitFor();
}

interface Header {
  readonly device: string;
  readonly sequence: number;
  readonly kind: string;
}

/** The file of everything that the tablet holds, as a person carries it away. */
async function carryAway(page: Page): Promise<string> {
  await page.locator('.ticks').click();
  const coming = page.waitForEvent('download');
  await page.getByRole('dialog').getByRole('button', { name: 'Save a copy' }).click();
  const download = await coming;
  const path = join(scratch.path, `carried-${round}-${Date.now()}`);
  await download.saveAs(path);
  await page.keyboard.press('Escape');
  return path;
}

async function carried(page: Page): Promise<readonly Header[]> {
  const lines = readFileSync(await carryAway(page), 'utf8')
    .trim()
    .split('\n');
  return lines.flatMap((line) => {
    const { entry } = JSON.parse(line) as { entry?: { head: string } };
    return entry === undefined ? [] : [JSON.parse(entry.head) as Header];
  });
}

onDisks('B4: the screens on a full disk (needs root and loop devices)', () => {
  let disk: SmallDisk;
  beforeEach(async () => {
    round += 1;
    disk = makeDisk(120);
    camp = await startCamp(join(scratch.path, `data-${round}`));
    tablet = await openTablet(join(disk.path, 'profile'));
  });
  afterEach(async () => {
    await tablet.kill();
    await camp.kill();
    disk.remove();
  });

  it('refuse the entry in red and keep its form, go on in the room set aside, and are well again with room', async () => {
    const { page } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    await drillRun(page, { from: '12.30', to: '13.22' });
    await isAtCamp(page);
    await page.locator('.ticks').click();
    await page.getByRole('dialog').getByText('16 MB are set aside').waitFor({ timeout: 20_000 });
    await page.getByRole('dialog').getByText('the browser’s own figure is not trusted').waitFor();
    await page.keyboard.press('Escape');
    await answer(page, 'next');
    await beginRun(page, '14.05');
    await camp.kill();

    disk.fill();
    await answer(page, 'core');
    await alarm(page, 'This tablet has no room left').waitFor({ timeout: 15_000 });
    await alarm(page, 'The disk of this tablet is full').waitFor();
    expect(await page.locator('.answer').count()).toBe(0);
    // The same press again: there is the room of the ballast.
    await answer(page, 'core');
    await page.locator('.answer').waitFor({ timeout: 15_000 });
    expect(await alarm(page, 'This tablet has no room left').count()).toBe(0);
    await alarm(page, 'Bring them to the camp computer or save a copy').waitFor();

    disk.empty();
    await page.getByRole('button', { name: 'I have freed room' }).click();
    await alarm(page, 'The disk of this tablet is full').waitFor({ state: 'detached', timeout: 20_000 });
    await page.reload();
    await page.getByText('14.05').first().waitFor();
    await camp.restart();
    await isAtCamp(page);
  });
});

describe('B3, B7, B8, B9: a browser that crashes, is silent, is open twice, or stands at another address', () => {
  beforeEach(async () => {
    round += 1;
    camp = await startCamp(join(scratch.path, `data-${round}`));
    tablet = await openTablet(join(scratch.path, `profile-${round}`));
  });
  afterEach(async () => {
    await tablet.kill();
    await camp.kill();
  });

  it('B3: a tab that crashes in the middle of a form brings back every key, and what was saved', async () => {
    const { page, context } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    await drillRun(page, { from: '12.30', to: '13.22' });
    await answer(page, 'next');
    const address = page.url();
    let open = page;
    for (const keys of ['1', '4', '.', '0']) {
      if (keys === '1') await save(open);
      await pad(open, keys);
      const session = await context.newCDPSession(open);
      const gone = open.waitForEvent('crash');
      session.send('Page.crash').catch(() => undefined);
      await gone;
      open = await context.newPage();
      await open.goto(address);
      await open.getByRole('heading', { name: 'Run 2' }).waitFor();
    }
    await pad(open, '5');
    await save(open);
    await answer(open, 'core');
    await open.locator('.answer').waitFor();
    await open.getByText('14.05').first().waitFor();
    await open.getByText('13.22').first().waitFor();
  });

  it('B3: a browser that is killed two seconds after the last key brings the form back; control: localStorage alone', async () => {
    const profile = join(scratch.path, `profile-${round}`);
    await openCampaign(tablet.page, camp.address, 'Ceredin Saddle');
    const address = tablet.page.url();
    // What the browser wrote down of the start is written; the next writing is some seconds away.
    await wait(7_000);
    await pad(tablet.page, '12.3');
    await tablet.page.evaluate(() => localStorage.setItem('control', '12.3'));
    await wait(2_000);
    await tablet.kill();
    tablet = await openTablet(profile);
    const { page } = tablet;
    await page.goto(address);
    await page.getByRole('heading', { name: 'Run 1: depth from' }).waitFor();
    await pad(page, '1');
    await save(page);
    await pad(page, '13.22');
    await save(page);
    await answer(page, 'core');
    await page.getByText('12.31').first().waitFor();
    expect(await page.evaluate(() => localStorage.getItem('control'))).toBeNull();
  });

  it('B8: storage that stays silent is "not saved, trying again", never saved; then the same entry once', async () => {
    const { page, context } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    const campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
    await drillRun(page, { from: '12.30', to: '13.22' });
    await isAtCamp(page);
    await answer(page, 'next');
    await beginRun(page, '14.05');
    // Another page of the same address holds the entries and says nothing, as a dying disk does.
    const other = await context.newPage();
    await other.goto(`${camp.address}/sw.js`);
    await other.evaluate(
      (name) =>
        new Promise<void>((resolve) => {
          const opening = indexedDB.open(`firnbook-${name}`);
          opening.onsuccess = () => {
            const store = opening.result.transaction('entries', 'readwrite').objectStore('entries');
            const until = Date.now() + 7_000;
            const again = () => {
              const asked = store.get(1);
              asked.onsuccess = () => (Date.now() < until ? again() : opening.result.close());
            };
            again();
            resolve();
          };
        }),
      campaign,
    );
    await page.bringToFront();
    await answer(page, 'core');
    await alarm(page, 'is not saved').waitFor({ timeout: 12_000 });
    expect(await page.locator('.answer').count()).toBe(0);
    await page.locator('.answer').waitFor({ timeout: 30_000 });
    await alarm(page, 'is not saved').waitFor({ state: 'detached' });
    await isAtCamp(page);
    const runs = (await carried(page)).filter(({ kind }) => kind === 'run.logged');
    expect(runs).toHaveLength(2);
  });

  it('B4: a browser that fails every file, as Chromium can after a full disk, is told from the disk; the form stays', async () => {
    const { page, context } = tablet;
    await context.route('**/assets/file-worker-*.js', async (route) => {
      const response = await route.fetch();
      await route.fulfill({ response, body: `${breakable}\n${await response.text()}` });
    });
    const isBroken = (yes: boolean) =>
      page.evaluate((broken) => new BroadcastChannel('files').postMessage(broken), yes);
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    await drillRun(page, { from: '12.30', to: '13.22' });
    await answer(page, 'next');
    await beginRun(page, '14.05');

    await isBroken(true);
    await answer(page, 'core');
    await alarm(page, 'close the browser, all its pages, and open it again').waitFor({ timeout: 15_000 });
    await alarm(page, 'or its browser writes no more').waitFor();
    expect(await alarm(page, 'The disk of this tablet is full').count()).toBe(0);
    expect(await page.locator('.answer').count()).toBe(0);
    // What it says first can be done: everything saved goes into the copy, from memory.
    expect((await carried(page)).filter(({ kind }) => kind === 'run.logged')).toHaveLength(1);

    await isBroken(false);
    await answer(page, 'core');
    await page.locator('.answer').waitFor({ timeout: 15_000 });
    await page.getByRole('button', { name: 'I have freed room' }).click();
    await alarm(page, 'of this tablet is full').waitFor({ state: 'detached', timeout: 20_000 });
  });

  it('B8: a browser that promised nothing says so before a campaign is opened, and where the record is told', async () => {
    const { page } = tablet;
    await page.goto(camp.address);
    await page.getByText('This browser has not promised to keep the record').waitFor();
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    await page.locator('.ticks').click();
    await page.getByRole('dialog').getByText('This browser has not promised to keep the record').waitFor();
  });

  it('B7: two tabs of one tablet, used at once, leave every sequence number once', async () => {
    const { page, context } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    await drillRun(page, { from: '12.30', to: '13.22' });
    const second = await context.newPage();
    await second.goto(page.url());
    await answer(page, 'next');
    // The tabs share the form that is begun; each takes what is there when it comes to it.
    await beginRun(page, '14.05');
    await second.reload();
    await second.locator('[data-choice="core"]').waitFor();
    await Promise.all([answer(page, 'core'), answer(second, 'core')]);
    // Time for the second to find the run there already.
    await page.getByText('14.05').first().waitFor();
    await wait(2_000);
    await isAtCamp(page);
    const entries = await carried(page);
    const places = entries.map(({ device, sequence }) => `${device} ${sequence}`);
    expect(new Set(places).size).toBe(places.length);
    const [device] = new Set(entries.map((entry) => entry.device));
    expect(entries.map(({ sequence }) => sequence).sort((a, b) => a - b)).toEqual(
      entries.map((_, index) => index + 1),
    );
    expect(entries.every((entry) => entry.device === device)).toBe(true);
  });

  it('B9: at its old address the tablet says where the record is, and gives it to the new one by a file', async () => {
    const { page } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    const campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
    await isAtCamp(page);
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await camp.kill();
    await drillRun(page, { from: '12.30', to: '13.22' });
    const old = camp.address;
    // The same camp computer by a new port, as by a new address.
    camp = await startCamp(camp.dataFolder);
    expect(camp.address).not.toBe(old);

    await page.goto(`${old}/c/${campaign}`);
    await page.locator('.ticks').click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText(`stays here, under ${old}`).waitFor({ timeout: 15_000 });
    await page.keyboard.press('Escape');
    const file = await carryAway(page);

    await page.goto(`${camp.address}/c/${campaign}`);
    await page.locator('.ticks').click();
    await dialog.getByText(`under the address ${camp.address}`).waitFor();
    await page.keyboard.press('Escape');
    const { entries } = await camp.digest(campaign);
    await page.locator('.ticks').click();
    await dialog.getByLabel('Bring in a file').setInputFiles(file);
    await dialog.getByRole('button', { name: 'Bring in 1 entry' }).click();
    await dialog.getByText('1 entry brought in').waitFor();
    await page.keyboard.press('Escape');
    await isAtCamp(page);
    expect((await camp.digest(campaign)).entries).toBe(entries + 1);
  });
});
