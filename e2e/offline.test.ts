import { cpSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { drillRun, openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch, webFolder } from './folders.ts';
import { nextVersion } from './next-version.ts';
import { openTablet, type Tablet } from './tablet.ts';

let scratch: Scratch;
let camp: CampComputer;
let tablet: Tablet;
let round = 0;

beforeAll(() => {
  scratch = makeScratch('offline');
});
afterAll(() => scratch.remove());

beforeEach(async () => {
  round += 1;
  camp = await startCamp(join(scratch.path, `data-${round}`));
  tablet = await openTablet(profile());
});
afterEach(async () => {
  await tablet.close();
  await camp.kill();
});

const profile = () => join(scratch.path, `profile-${round}`);

/** The campaign's id once the camp computer has all of it. */
async function settledCampaign(page: Page): Promise<string> {
  await openCampaign(page, camp.address, 'Ceredin Saddle');
  await isAtCamp(page);
  return /\/c\/([^/]+)/.exec(page.url())![1]!;
}

/** What a browser does that drops what it kept for an address. */
const drop = (...folders: readonly string[]) => {
  for (const folder of folders) rmSync(join(profile(), 'Default', folder), { recursive: true, force: true });
};

const isAtCamp = (page: Page) =>
  page.locator('.ticks').getByText('on the camp computer').waitFor({ timeout: 15_000 });
const isOnlyHere = (page: Page) => page.locator('.ticks').getByText('not there yet').waitFor();

async function isKeptForOffline(page: Page): Promise<void> {
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

describe('Without the camp computer', () => {
  it('B5: a cold start shows the campaign within two seconds, and what is written arrives after its return', async () => {
    const campaign = await settledCampaign(tablet.page);
    await isKeptForOffline(tablet.page);
    await tablet.close();
    await camp.kill();

    tablet = await openTablet(profile());
    const { page } = tablet;
    const start = performance.now();
    await page.goto(`${camp.address}/c/${campaign}`);
    await page.getByText('Ceredin Saddle').first().waitFor();
    expect(performance.now() - start).toBeLessThan(2_000);

    await drillRun(page, { from: '12.30', to: '13.22' });
    await isOnlyHere(page);
    await page.reload();
    await isOnlyHere(page);

    await camp.restart();
    const { entries } = await camp.digest(campaign);
    const returned = performance.now();
    await isAtCamp(page);
    expect(performance.now() - returned).toBeLessThan(10_000);
    expect((await camp.digest(campaign)).entries).toBe(entries + 1);
  });

  it('a first visit that broke off is made whole when the camp computer is back, without a reload', async () => {
    const broken = join(scratch.path, `broken-${round}`);
    cpSync(webFolder, broken, { recursive: true });
    rmSync(join(broken, 'icon-512.png'));
    await camp.kill();
    await camp.restart(broken);
    const { page } = tablet;
    await page.goto(camp.address);
    const active = () =>
      page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.active?.state);
    await page.waitForTimeout(4_000);
    expect(await active()).toBeUndefined();
    await camp.kill();
    await camp.restart(webFolder);
    await expect.poll(active, { timeout: 60_000 }).toBe('activated');
  });

  it('a database that the browser dropped comes back from the second copy, and the tablet says so', async () => {
    const campaign = await settledCampaign(tablet.page);
    await drillRun(tablet.page, { from: '12.30', to: '13.22' });
    await isKeptForOffline(tablet.page);
    await tablet.close();
    await camp.kill();
    drop('IndexedDB');

    tablet = await openTablet(profile());
    const { page } = tablet;
    await page.goto(camp.address);
    await page.getByText('entries on this tablet').waitFor();
    await page.goto(`${camp.address}/c/${campaign}`);
    await page.getByText('second copy').waitFor();
    await page.getByText('12.30').first().waitFor();
    await page.getByRole('button', { name: 'Read', exact: true }).click();
    await page.getByText('second copy').waitFor({ state: 'detached' });
    await drillRun(page, { to: '14.05' });
    // What it knew of the camp computer was dropped too, and is not claimed.
    await page.locator('.ticks').getByText('camp computer: not yet').waitFor();
    await camp.restart();
    await isAtCamp(page);
  });

  it('a tablet that lost both copies says so, and has what the camp computer has, under a new name', async () => {
    const campaign = await settledCampaign(tablet.page);
    await drillRun(tablet.page, { from: '12.30', to: '13.22' });
    await isAtCamp(tablet.page);
    await isKeptForOffline(tablet.page);
    await tablet.close();
    drop('IndexedDB', 'File System');
    await camp.kill();

    tablet = await openTablet(profile());
    const { page } = tablet;
    await page.goto(`${camp.address}/c/${campaign}`);
    await page.getByText('This tablet lost what it held of this campaign').waitFor();
    await camp.restart();
    const { entries } = await camp.digest(campaign);
    await page.getByText('What was only on this tablet is gone').waitFor({ timeout: 30_000 });
    await page.getByText('12.30').first().waitFor();
    await page
      .getByText('Who is writing?')
      .or(page.getByRole('heading', { name: 'Run 2' }))
      .first()
      .waitFor();
    await drillRun(page, { to: '14.05' });
    await isAtCamp(page);
    // The run, and the new name of the device.
    expect((await camp.digest(campaign)).entries).toBe(entries + 2);
    expect(await page.getByText('Two copies of one device').count()).toBe(0);
  });

  it('B6: a new version waits for a person, then the page runs it; the interface is never kept', async () => {
    const { page } = tablet;
    await settledCampaign(page);
    await isKeptForOffline(page);
    await camp.kill();
    await camp.restart(nextVersion(webFolder, join(scratch.path, `web-${round}`)));

    await page.reload();
    const isNext = () => page.evaluate(() => document.querySelector('meta[name="version"]') !== null);
    const take = page.getByRole('button', { name: 'Change to it now' });
    await take.waitFor();
    await page.reload();
    expect(await isNext()).toBe(false);
    await take.waitFor();
    await Promise.all([page.waitForEvent('load'), take.click()]);
    await page.getByText('Ceredin Saddle').first().waitFor();
    expect(await isNext()).toBe(true);

    const kept = await page.evaluate(async () => {
      const names = await caches.keys();
      const requests = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
      return { names, paths: requests.flat().map((request) => new URL(request.url).pathname) };
    });
    expect(kept.names).toHaveLength(2);
    expect(kept.paths.filter((path) => path.startsWith('/api'))).toEqual([]);
  });

  it('nothing on the page is refused by the content policy', async () => {
    const { page } = tablet;
    const refused: string[] = [];
    page.on('console', (message) => {
      if (/Content Security Policy|Refused to/.test(message.text())) refused.push(message.text());
    });
    await settledCampaign(page);
    await page.reload();
    await isAtCamp(page);
    expect(refused).toEqual([]);
  });
});
