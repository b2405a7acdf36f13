import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { knowStick, openDevices } from '@firnbook/server';
import { nameStick } from '@firnbook/storage/sqlite';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { startCamp } from './camp.ts';
import { openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

let scratch: Scratch;
/** What a test started; one that fails leaves it on. */
const ending: (() => Promise<void> | void)[] = [];
beforeAll(() => {
  scratch = makeScratch('sticks');
});
afterEach(async () => {
  for (const end of ending.splice(0).reverse()) await end();
});
afterAll(() => scratch.remove());

describe('a second medium', () => {
  it('is ticked when the stick was read back; a blank camp computer gets the campaign back from it', async () => {
    const stickFolder = join(scratch.path, 'stick');
    mkdirSync(stickFolder);
    const stick = nameStick(stickFolder, { id: 'stick-1', name: 'red' });
    const known = { ...stick, folder: stickFolder, tested: null };
    const data = join(scratch.path, 'data');
    mkdirSync(data);
    knowStick(data, known);

    const camp = await startCamp(data);
    const tablet = await openTablet(join(scratch.path, 'profile'));
    const { page } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    const ticks = page.locator('.ticks');
    await ticks.getByText('on the camp computer').waitFor();
    await ticks.getByText('second medium: not yet').waitFor();
    // the stick is looked for at the start and every half minute
    await camp.kill();
    await camp.restart();
    await ticks.getByText('on a second medium').waitFor({ timeout: 30_000 });
    await ticks.click();
    await page.getByText('Stick red is in: last copy just now, read back').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await camp.kill();

    // the laptop is gone; another one, the same stick, a tablet that never saw the campaign
    const blank = join(scratch.path, 'blank');
    mkdirSync(blank);
    knowStick(blank, known);
    const other = await startCamp(blank);
    const fresh = await openTablet(join(scratch.path, 'profile-2'));
    await fresh.page.setViewportSize({ width: 390, height: 844 });
    await fresh.page.goto(other.address);
    await fresh.page.getByRole('heading', { name: 'On sticks, and not on the camp computer' }).waitFor();
    expect(await violationsOn(fresh.page)).toEqual([]);
    const button = fresh.page.getByRole('button', { name: /Bring it back/ });
    await button.focus();
    await fresh.page.keyboard.press('Enter');
    await fresh.page.getByText('It is back.').waitFor();
    await fresh.page.getByRole('link', { name: /Ceredin Saddle/ }).click();
    await fresh.page.locator('.ticks').getByText('on the camp computer').waitFor();
    await fresh.close();
    await tablet.close();
    await other.kill();
  });
});

/** A disk in memory stands for sticks: another medium than the one that the book lies on. */
const memory = '/dev/shm';

describe.skipIf(!existsSync(memory))('a stick without a name, on the camp computer’s own screen', () => {
  let media: string;
  const stickFolder = () => join(media, 'KINGFISH');
  const open = (page: Page) => page.getByRole('button', { name: 'Let copies be made on it' });
  beforeAll(() => {
    media = mkdtempSync(join(memory, 'firnbook-media-'));
    mkdirSync(stickFolder());
    writeFileSync(join(stickFolder(), 'saddle.jpg'), 'of the Ceredin Saddle');
  });
  afterAll(() => rmSync(media, { recursive: true }));

  it('is tested, named, and copied to by itself; the test can be stopped', async () => {
    const data = join(scratch.path, 'named');
    openDevices(data).add('tablet 3');
    const camp = await startCamp(data, undefined, media);
    const tablet = await openTablet(join(scratch.path, 'profile-3'));
    ending.push(camp.kill, tablet.kill);
    const { page } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    await page.locator('.ticks').click();
    const form = page.getByRole('form', { name: 'A stick is in the computer that is not named yet' });
    await form.getByText(/^KINGFISH: [\d.]+.GB, of which [\d.]+.GB are free$/).waitFor();

    // By keyboard alone: a name, the long test, and its end before it is through.
    await open(page).focus();
    await page.keyboard.press('Enter');
    await form.getByLabel('Name of this stick').focus();
    expect(await violationsOn(page)).toEqual([]);
    await page.keyboard.type('red');
    await page.keyboard.press('Tab');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByText(/^Stick red: [\d.]+.[GM]B of [\d.]+.GB written/).waitFor();
    const stop = page.getByRole('button', { name: 'Stop the test' });
    await stop.focus();
    await page.keyboard.press('Enter');
    await page.getByText('The test was stopped. KINGFISH has no name, and is as it was.').waitFor();
    expect(readdirSync(stickFolder())).toEqual(['saddle.jpg']);

    await open(page).click();
    await form.getByLabel('Name of this stick').fill('red');
    await form.getByLabel(/^256 MB/).check();
    await form.getByRole('button', { name: 'Name this stick' }).click();
    await page.getByText(/^Stick red is named: 268.MB were written and came back/).waitFor();
    await page.getByText('Stick red is in: last copy just now, read back').waitFor();
    expect(readdirSync(stickFolder())).toEqual(
      expect.arrayContaining(['saddle.jpg', 'camp_network', 'firnbook-stick.json']),
    );

    // Whoever looks at the day sees it too.
    await page.keyboard.press('Escape');
    await page.getByRole('navigation').getByRole('link', { name: 'Today' }).click();
    const today = page.getByRole('region', { name: 'Devices' });
    await today.getByRole('heading', { name: 'Sticks with copies' }).waitFor();
    await today.getByText('Stick red is in: last copy').waitFor();
    expect(await violationsOn(page)).toEqual([]);
  });

  it('that another computer’s book named brings a blank one the campaign and the camp network', async () => {
    const other = await startCamp(join(scratch.path, 'blank-2'), undefined, media);
    const { page, kill } = await openTablet(join(scratch.path, 'profile-4'), { width: 820, height: 1180 });
    ending.push(other.kill, kill);
    await page.goto(other.address);
    await page.getByText('Another book called it red').waitFor();
    await open(page).click();
    await page.getByLabel('No test').check();
    expect(await violationsOn(page)).toEqual([]);
    const use = page.getByRole('button', { name: 'Use stick red' });
    await use.focus();
    await page.keyboard.press('Enter');
    const bring = page.getByRole('button', { name: /Bring the camp network back.*1 paired device/ });
    await bring.waitFor();
    expect(await violationsOn(page, { looks: ['standard'], sizes: [[820, 1180]] })).toEqual([]);
    await bring.focus();
    await page.keyboard.press('Enter');
    await page.getByText('The camp network is back').waitFor();
    await expect.poll(() => bring.count()).toBe(0);
    await page.getByRole('button', { name: /Bring it back/ }).click();
    await page.getByText('It is back.').waitFor();
    expect(await (await fetch(`${other.address}/api/devices`)).json()).toMatchObject([{ name: 'tablet 3' }]);
  });
});
