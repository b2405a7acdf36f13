import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { openSeason, startDemoCamp } from './demo-camp.ts';
import { answer, drillRun, openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

/** Two tablets of one camp, of which one goes silent: what Today says of them. */

let scratch: Scratch;
let camp: CampComputer;
let one: Tablet;
let other: Tablet;

beforeAll(async () => {
  scratch = makeScratch('devices');
  camp = await startCamp(join(scratch.path, 'data'));
  one = await openTablet(join(scratch.path, 'one'), { width: 1440, height: 900 });
  other = await openTablet(join(scratch.path, 'other'));
});
afterAll(async () => {
  await one?.close();
  await other?.close();
  await camp?.kill();
  scratch?.remove();
});

const list = (page: Page) => page.getByRole('region', { name: 'Devices' });
const lines = (page: Page) => list(page).locator('li');
const today = async (page: Page, campaign: string) => {
  await page.goto(`${campaign}/B/today`);
  await list(page).waitFor();
};

/** What the camp computer's own file says, as many hours later. */
function hoursLater(hours: number): void {
  const campaigns = join(camp.dataFolder, 'campaigns');
  const file = join(campaigns, readdirSync(campaigns)[0]!, 'presence.json');
  const devices = JSON.parse(readFileSync(file, 'utf8')) as { seenAt: string }[];
  const later = devices.map((device) => ({
    ...device,
    seenAt: new Date(Date.parse(device.seenAt) - hours * 3_600_000).toISOString(),
  }));
  writeFileSync(file, JSON.stringify(later));
}

describe('Devices on Today', () => {
  let campaign: string;
  let nameOfOther: string;

  it('lists this device and the other one, each with what it said of itself', async () => {
    await openCampaign(one.page, camp.address, 'Ceredin Saddle');
    campaign = one.page.url().replace(/\/B\/drill$/, '');
    await drillRun(one.page, { from: '0', to: '0.87' });
    await one.page.locator('.ticks').getByText('on the camp computer').waitFor();

    await other.page.goto(`${campaign}/B/drill`);
    await other.page.getByRole('button', { name: 'HN' }).first().click();
    const read = other.page.getByRole('button', { name: 'Read; to the form' });
    const form = other.page.getByRole('heading', { name: 'Run 2: depth from' });
    // The cautions of the shift may come first: whichever it is, it is waited for.
    await read.or(form).first().waitFor();
    if (await read.isVisible()) await read.click();
    await form.waitFor();
    await drillRun(other.page, { to: '1.79' });
    await other.page.locator('.ticks').getByText('on the camp computer').waitFor();

    await today(one.page, campaign);
    await expect.poll(() => lines(one.page).count(), { timeout: 40_000 }).toBe(2);
    // What it says of itself is there before its entries have come to this tablet.
    await expect
      .poll(async () => (await lines(one.page).allInnerTexts())[1], { timeout: 40_000 })
      .toMatch(/its last entry here: /);
    const [own = '', theirs = ''] = await lines(one.page).allInnerTexts();
    expect(own).toMatch(
      /this device\s+all sent · clock right · (two copies|one copy) on it · the browser has/,
    );
    expect(theirs).toMatch(/last seen just now\s+all sent · clock right · /);
    nameOfOther = /^Tablet [0-9A-F]{4}/.exec(theirs)?.[0] ?? '';
    expect(nameOfOther).not.toBe('');
    // control: nobody is silent
    expect(await list(one.page).locator('.silent').count()).toBe(0);
  });

  it('a tablet whose entries no exchange takes says so; when it goes silent that comes first, in words', async () => {
    await other.page.route('**/exchange', (route) => route.abort());
    await answer(other.page, 'next');
    await drillRun(other.page, { to: '2.64' });
    await today(one.page, campaign);
    await expect
      .poll(async () => (await lines(one.page).allInnerTexts())[1], { timeout: 90_000 })
      .toMatch(/1 entry not sent yet/);
    await other.kill();

    await camp.kill('SIGTERM');
    hoursLater(5);
    await camp.restart();
    await one.page.reload();
    const silent = list(one.page).locator('.silent');
    await silent.waitFor();
    expect(await lines(one.page).first().textContent()).toContain(
      `${nameOfOther}: last seen 5 h ago, 1 entry was only on it then.`,
    );
    expect(await lines(one.page).nth(1).textContent()).toContain('this device');
  });

  it('is led to by keyboard, and read on a desk and on a phone in every look', async () => {
    const { page } = one;
    expect(await violationsOn(page)).toEqual([]);
    await page.goto(`${campaign}/B/drill`);
    const link = page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name: 'Today' });
    await link.focus();
    await page.keyboard.press('Enter');
    await list(page).locator('.silent').waitFor();
    await page.setViewportSize({ width: 390, height: 844 });
    const sideways = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(sideways).toBe(0);
    // What is silent stands above the day's holes on a phone too.
    const top = async (selector: string) => (await page.locator(selector).first().boundingBox())?.y ?? 0;
    expect(await top('.day-devices')).toBeLessThan(await top('.day-holes'));
    await page.setViewportSize({ width: 1440, height: 900 });
  });

  it('while the camp computer is away it says as of when the list is', async () => {
    const { page } = one;
    await camp.kill();
    await page.reload();
    await list(page).getByText('The camp computer does not answer. This is what it knew').waitFor();
    await list(page).locator('.silent').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await camp.restart();
  });

  it('when the tablet comes back and sends, nobody is silent', async () => {
    other = await openTablet(join(scratch.path, 'other'));
    await other.page.goto(`${campaign}/B/drill`);
    await other.page.locator('.ticks').getByText('on the camp computer').waitFor();
    await today(one.page, campaign);
    await expect.poll(() => list(one.page).locator('.silent').count(), { timeout: 40_000 }).toBe(0);
    expect(await lines(one.page).nth(1).textContent()).toContain('all sent');
  });
});

describe('Devices on Today of the invented season', () => {
  it('are this one, and those that the record knows with their last entry: no visit is made up', async () => {
    const demo = await startDemoCamp(join(scratch.path, 'demo'));
    const tablet = await openTablet(join(scratch.path, 'demo-profile'));
    const season = await openSeason(tablet, demo);
    await today(tablet.page, season);
    await expect.poll(() => lines(tablet.page).count(), { timeout: 40_000 }).toBeGreaterThan(1);
    const [own = '', ...others] = await lines(tablet.page).allInnerTexts();
    expect(own).toContain('this device');
    expect(others.map((line) => line.split('\n')[0]?.trim()).sort()).toEqual([
      'camp computer the camp computer has not heard it itself',
      "driller's phone the camp computer has not heard it itself",
      "logger's tablet the camp computer has not heard it itself",
    ]);
    for (const line of others) expect(line).toMatch(/its last entry here: /);
    const phone = { looks: ['standard'], sizes: [[390, 844]] } as const;
    expect(await violationsOn(tablet.page, phone)).toEqual([]);
    await tablet.close();
    await demo.kill();
  });
});
