import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { answer, drillRun, goTo, logPiece, openCampaign, pad } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

/** Two tablets of one camp: HN's, and KT's, which is out of reach while a right is taken away. */

let scratch: Scratch;
let camp: CampComputer;
let one: Tablet;
let other: Tablet;
let campaign: string;

beforeAll(async () => {
  scratch = makeScratch('people');
  camp = await startCamp(join(scratch.path, 'data'));
  one = await openTablet(join(scratch.path, 'one'), { width: 1440, height: 900 });
  other = await openTablet(join(scratch.path, 'other'), { width: 820, height: 1180 });
  await openCampaign(one.page, camp.address, 'Ceredin Saddle, rights');
  campaign = one.page.url().replace(/\/B\/drill$/, '');
  await drillRun(one.page, { from: '0', to: '0.87' });
  await goTo(one.page, 'Log');
  await logPiece(one.page, { topBreak: 'unsure', length: '84' });
  await onCamp(one.page);
  await other.page.goto(`${campaign}/B/drill`);
  await other.page.getByLabel('Somebody else: initials').fill('KT');
  await other.page.getByRole('button', { name: 'Add', exact: true }).click();
  const read = other.page.getByRole('button', { name: 'Read; to the form' });
  await read.click({ timeout: 5_000 }).catch(() => undefined);
  await onCamp(other.page);
});
afterAll(async () => {
  await one?.close();
  await other?.close();
  await camp?.kill();
  scratch?.remove();
});

const onCamp = (page: Page) =>
  page.locator('.ticks').getByText('on the camp computer').waitFor({ timeout: 20_000 });
const goToPeople = async (page: Page) => {
  await page.goto(`${campaign}/B/people`);
  await page.getByRole('heading', { name: 'People and their rights' }).waitFor();
};
const right = (page: Page, name: string) => page.getByRole('switch', { name, exact: true });
const isGiven = (page: Page, name: string, given: boolean) =>
  expect
    .poll(() => right(page, name).getAttribute('aria-checked', { timeout: 20_000 }), { timeout: 40_000 })
    .toBe(String(given));
const conflict = (page: Page) => page.locator('[data-conflict="right used"]');
const says = (page: Page) => conflict(page).locator('b').textContent({ timeout: 40_000 });

describe('The rights of people', () => {
  it('are for everybody until somebody makes them a matter of names, by keyboard alone', async () => {
    const keys = keysOn(one.page);
    await keys.press(/^Log Ceredin Saddle/);
    await keys.press(/^People and rights$/);
    await keys.heading(/People and their rights/);
    expect(await one.page.getByRole('switch').count()).toBe(0);
    await expect.poll(() => one.page.locator('[data-person="KT"]').count(), { timeout: 40_000 }).toBe(1);
    expect(await violationsOn(one.page)).toEqual([]);
    await keys.press(/^By name/);
    await isGiven(one.page, 'HN: Sign off', true);
    await isGiven(one.page, 'KT: Log', true);
    await isGiven(one.page, 'KT: Sign off', false);
    expect(await violationsOn(one.page)).toEqual([]);
    await keys.press(/^KT: Sign off/);
    await isGiven(one.page, 'KT: Sign off', true);
    await onCamp(one.page);
  });

  it('fit a phone, with switches for a gloved thumb', async () => {
    await one.page.setViewportSize({ width: 390, height: 844 });
    const sideways = await one.page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(sideways).toBe(0);
    const boxes = await one.page.getByRole('switch').evaluateAll((all) =>
      all.map((each) => {
        const { width, height } = each.getBoundingClientRect();
        return Math.min(width, height);
      }),
    );
    expect(Math.min(...boxes)).toBeGreaterThanOrEqual(56);
    await one.page.setViewportSize({ width: 1440, height: 900 });
  });

  it('J3: what KT signs off after the right was taken, out of reach, is the same conflict on both tablets', async () => {
    await goToPeople(other.page);
    await isGiven(other.page, 'KT: Sign off', true);
    await other.page.route('**/api/**', (route) => route.abort());

    await keysOn(one.page).press(/^KT: Sign off/);
    await isGiven(one.page, 'KT: Sign off', false);
    await onCamp(one.page);

    const keys = keysOn(other.page);
    await other.page.goto(`${campaign}/B/versions`);
    await keys.press(/^Sign off these depths as a version$/);
    await keys.tabTo(/^Name of the version$/);
    await other.page.keyboard.type('solved-2');
    await other.page.keyboard.press('Enter');
    await other.page.locator('.version-list h2', { hasText: 'solved-2' }).waitFor();
    // Control: by all that this tablet knows, KT has the right.
    expect(await conflict(other.page).count()).toBe(0);

    await other.page.unroute('**/api/**');
    const words = await says(one.page);
    expect(words).toMatch(/^KT signed off solved-2 on .+: HN had taken the right to sign off away on .+\.$/);
    expect(await says(other.page)).toBe(words);
  });

  it('KT, who has lost the right, is told who settles it; HN does, by keyboard alone, and both see it', async () => {
    const theirs = keysOn(other.page);
    await theirs.press(/^Settle/);
    await theirs.press(/^Let it stand$/);
    await other.page.getByText('KT has no right to sign off here. These have it: HN.').waitFor();
    await other.page.keyboard.press('Escape');

    await one.page.goto(`${campaign}/B/today`);
    await one.page.locator('.needs').getByText('KT signed off solved-2').waitFor();
    const keys = keysOn(one.page);
    await keys.press(/^Settle it: KT signed off solved-2/);
    await keys.heading(/People and their rights/);
    await keys.press(/^Settle/);
    await one.page.locator('dialog [data-settle="stands"]').waitFor();
    expect(await violationsOn(one.page)).toEqual([]);
    await keys.press(/^Let it stand$/);
    for (const { page } of [one, other])
      await expect.poll(() => conflict(page).count(), { timeout: 40_000 }).toBe(0);
    await one.page.goto(`${campaign}/B/versions`);
    await one.page.locator('.version-list h2', { hasText: 'solved-2' }).waitFor();
  });

  it('who may not log is told so, what was typed stays, and the tablet is handed to somebody who may', async () => {
    await goToPeople(one.page);
    await keysOn(one.page).press(/^KT: Log/);
    await isGiven(one.page, 'KT: Log', false);
    await onCamp(one.page);
    await goToPeople(other.page);
    await isGiven(other.page, 'KT: Log', false);
    expect(await right(other.page, 'KT: Log').isDisabled()).toBe(true);
    await other.page.getByText('You have no right to change this. These have it: HN.').waitFor();

    const { page } = other;
    await goTo(page, 'Drill');
    await page.getByRole('heading', { name: 'Run 2: depth from' }).waitFor();
    await page.locator('.question button[type="submit"]').click();
    await pad(page, '1.79');
    await page.locator('.question button[type="submit"]').click();
    await answer(page, 'core');
    await page.getByText('KT has no right to log here. These have it: HN.').waitFor();
    await page.getByRole('button', { name: /^Writing: KT\. Change/ }).click();
    await page.locator('.crew').getByRole('button', { name: 'HN' }).click();
    await answer(page, 'core');
    await page.locator('.answer').waitFor();
    expect(await page.locator('.answer').textContent()).toMatch(/0\.92\sm drilled/);
  });
});
