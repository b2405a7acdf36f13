import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { openSeason, startDemoCamp } from './demo-camp.ts';
import { answer, drillRun, goTo, logPiece, openCampaign, pad } from './first-steps.ts';
import { makeScratch, root, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;

beforeAll(async () => {
  scratch = makeScratch('axe');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'), { width: 1440, height: 900 });
  page = tablet.page;
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch.remove();
});

const violations = () => violationsOn(page);

describe('axe-core finds nothing, in the standard, sun and night looks', () => {
  it('on the first page', async () => {
    await page.goto(camp.address);
    await page.getByRole('button', { name: 'Open the campaign' }).waitFor();
    expect(await violations()).toEqual([]);
  });

  it('on Drill: number, choice, answer with the list of runs', async () => {
    await openCampaign(page, camp.address, 'Ceredin Saddle, axe');
    expect(await violations()).toEqual([]);
    await drillRun(page, { from: '0', to: '0.92' });
    expect(await violations()).toEqual([]);
  });

  it('on the lists of soundings and zeros, and where a zero is corrected', async () => {
    await page.getByRole('button', { name: '0 soundings' }).click();
    expect(await violations()).toEqual([]);
    await page.getByRole('button', { name: '1 zero' }).click();
    await page.getByRole('button', { name: 'Correct Zero 1' }).click();
    await answer(page, 'surface');
    expect(await violations()).toEqual([]);
    await page.keyboard.press('Escape');
  });

  it('on Log: break, loss, length, answer with doubts', async () => {
    await goTo(page, 'Log');
    expect(await violations()).toEqual([]);
    await logPiece(page, { topBreak: 'loss', loss: '2', length: '142.6' });
    expect(await violations()).toEqual([]);
    await answer(page, 'done');
    expect(await violations()).toEqual([]);
  });

  it('on Core with its side, and in every dialog', async () => {
    await goTo(page, 'Core');
    expect(await violations()).toEqual([]);
    const dialogs = [/^how$/, /^Correct B-P/, /^Where the record is/, /^Writing: HN/, /hole B/];
    for (const name of dialogs) {
      await page.getByRole('button', { name }).first().click();
      await page.getByRole('dialog').waitFor();
      expect(await violations()).toEqual([]);
      await page.keyboard.press('Escape');
      await page.getByRole('dialog').waitFor({ state: 'detached' });
    }
  });

  it('on what is measured and set up: the list, words, the answer', async () => {
    const next = () => page.locator('.question button[type="submit"]').click();
    await goTo(page, 'Drill');
    await page.getByRole('button', { name: 'Measure or set up' }).click();
    await page.locator('[data-choice="set-up"]').waitFor();
    expect(await violations()).toEqual([]);
    await answer(page, 'set-up');
    expect(await violations()).toEqual([]);
    await answer(page, 'Set-up 1');
    for (const number of ['1.05', '45', '98']) {
      await pad(page, number);
      await next();
    }
    await answer(page, 'New cutters');
    await page.locator('.answer').waitFor();
    expect(await violations()).toEqual([]);
    await answer(page, 'next');
  });

  it('on what else a bench does: unusual pieces, neighbours of a diameter, a photograph, a tape', async () => {
    await goTo(page, 'Log');
    await answer(page, 'unusual');
    await answer(page, 'order');
    expect(await violations()).toEqual([]);
    await answer(page, 'done');
    await page.locator('.stepper .run-name').click();
    await page.locator('[data-choice="weigh"]').waitFor();
    expect(await violations()).toEqual([]);
    await answer(page, 'weigh');
    for (const number of ['145', '2150']) {
      await pad(page, number);
      await page.locator('.question button[type="submit"]').click();
    }
    await page.locator('[data-value="98.0"]').waitFor();
    expect(await violations()).toEqual([]);
    await page.getByRole('button', { name: 'Back', exact: true }).click();
    await page.getByRole('button', { name: 'Back', exact: true }).click();
    await answer(page, 'photograph');
    await page.getByRole('button', { name: /^The whole run/ }).click();
    await page.getByLabel('Pick a picture').setInputFiles(join(root, 'apps/web/public/icon-192.png'));
    await page.locator('.picture img').waitFor();
    expect(await violations()).toEqual([]);
    await answer(page, 'keep');
    await page.locator('.answer .picture img').waitFor();
    expect(await violations()).toEqual([]);
    await answer(page, 'list');
    await answer(page, 'tray');
    expect(await violations()).toEqual([]);
  });

  it('in the camp: a number with its sign, winds, a time, the answer, the list', async () => {
    await page.goto(page.url().replace(/\w+$/, 'camp'));
    await page.locator('[data-write="weather"]').click();
    expect(await violations()).toEqual([]);
    await pad(page, '18');
    await page.locator('.question button[type="submit"]').click();
    await pad(page, '7');
    await page.locator('.question button[type="submit"]').click();
    expect(await violations()).toEqual([]);
    await answer(page, 'nw');
    await answer(page, 'snow');
    await page.locator('.answer').waitFor();
    expect(await violations()).toEqual([]);
    await answer(page, 'next');
    await page.locator('[data-write="contamination"]').click();
    await answer(page, 'stove');
    expect(await violations()).toEqual([]);
    await answer(page, 'take');
    await answer(page, 'skip');
    await page.locator('.answer').waitFor();
    await answer(page, 'next');
    expect(await violations()).toEqual([]);
  });

  it('on a conflict: two runs of one name side by side, and when a person has settled it', async () => {
    await goTo(page, 'Drill');
    await page.getByRole('button', { name: 'Not run 2?' }).click();
    await pad(page, '1');
    await page.locator('.question button[type="submit"]').click();
    await drillRun(page, { to: '1.74' });
    const told = page.locator('[data-conflict="same name"]');
    expect(await told.textContent()).toContain('Both runs B-R001 count in depths and totals');
    await told.locator('button').click();
    await page.getByRole('dialog').waitFor();
    expect(await violations()).toEqual([]);
    await page.locator('[data-settle="renumber-second"]').click();
    await page.locator('[data-conflict]').waitFor({ state: 'detached' });
    await expect.poll(() => page.locator('.runs .run .name').allTextContents()).toEqual(['B-R002', 'B-R001']);
    expect(await page.locator('.runs .alias').first().textContent()).toContain('B-R001');
    expect(await violations()).toEqual([]);
  });

  it('has teeth: a grey that passes AA but not AAA is found in a field form', async () => {
    await goTo(page, 'Log');
    await page.evaluate(() => document.documentElement.style.setProperty('--ink-2', '#67737c'));
    expect((await violations()).filter((line) => line.includes('color-contrast-enhanced'))).not.toEqual([]);
  });
});

describe('axe-core finds nothing on the invented season either', () => {
  let demo: CampComputer;
  let season: string;

  beforeAll(async () => {
    demo = await startDemoCamp(join(scratch.path, 'demo'));
    season = await openSeason(tablet, demo);
  });
  afterAll(async () => {
    await demo?.kill();
  });

  it('on Today: the last day of work, and a handover being written', async () => {
    await page.goto(`${season}/B/today`);
    await page.getByRole('button', { name: 'Show that day' }).click();
    await page.locator('.ledger').waitFor();
    await page.locator('.needs li', { hasText: 'density' }).first().waitFor();
    expect(await violations()).toEqual([]);
    await page.getByRole('button', { name: 'Write a handover' }).click();
    await page.getByRole('dialog').waitFor();
    expect(await violations()).toEqual([]);
    await page.keyboard.press('Escape');
  });

  it('on the core with density beside it, and how a density came about', async () => {
    await page.goto(`${season}/B/core`);
    await page.locator('.core-axis-panel').first().waitFor();
    await page.locator('.density-summary').waitFor();
    expect(await violations()).toEqual([]);
    await page.locator('.this-ice').getByRole('button', { name: 'how' }).last().click();
    await page.getByRole('heading', { name: 'How a density is computed' }).waitFor();
    expect(await violations()).toEqual([]);
    await page.keyboard.press('Escape');
  });

  it('on depth scales, with a depth taken from one to all', async () => {
    await page.goto(`${season}/B/scales`);
    await page.getByLabel('Depth', { exact: true }).fill('60');
    await page.locator('.converter td').first().waitFor();
    expect(await violations()).toEqual([]);
  });

  it('on readings to look at, asked and answered', async () => {
    await page.goto(`${season}/B/readings`);
    await page.locator('[data-finding="density"]').first().waitFor();
    expect(await violations()).toEqual([]);
    await page.getByRole('button', { name: 'It is right as it stands' }).first().click();
    await page.getByRole('button', { name: /^Ask again/ }).waitFor();
    expect(await violations()).toEqual([]);
  });

  it('on zeros and splices', async () => {
    await page.goto(`${season}/B/zeros`);
    await page.locator('.splice-form').waitFor();
    expect(await violations()).toEqual([]);
  });
});
