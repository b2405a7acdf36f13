import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CampComputer } from './camp.ts';
import { openSeason, startDemoCamp } from './demo-camp.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** What is looked at and settled on the invented season, with the keyboard alone, and on a phone without sideways. */

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;
let season: string;

beforeAll(async () => {
  scratch = makeScratch('season');
  camp = await startDemoCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'));
  page = tablet.page;
  season = await openSeason(tablet, camp);
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch?.remove();
});

const tabTo = (name: RegExp) => keysOn(page, 90).tabTo(name);
const press = (name: RegExp) => keysOn(page, 90).press(name);
const at = (place: string) => page.goto(`${season}/B/${place}`);
const isLost = () => page.evaluate(() => document.activeElement?.tagName === 'BODY');

describe('With the keyboard alone', () => {
  it('a day is read, and a handover written for the next shift', async () => {
    await at('today');
    await page.getByRole('button', { name: 'Show that day' }).waitFor();
    await press(/^Show that day/);
    await page.getByRole('heading', { name: 'Hole C' }).waitFor();
    expect(await isLost()).toBe(false);
    await press(/^Write a handover/);
    await page.getByRole('dialog').waitFor();
    await press(/^Everybody/);
    await page.locator('textarea').waitFor();
    // The question takes the focus when it comes.
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('TEXTAREA');
    await page.keyboard.type('Cutters changed after run 128.');
    await press(/^(Next|Save)/);
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await isLost()).toBe(false);
    await press(/^Now/);
    expect(await isLost()).toBe(false);
    await page.locator('.handover', { hasText: 'Cutters changed' }).waitFor();
  });

  it('a reading is said to be right, which is an entry with a name, and asked again', async () => {
    await at('readings');
    const first = page.locator('[data-finding="length"]');
    await first.waitFor();
    await press(/^It is right as it stands/);
    await page.locator('.confirmed-title').waitFor();
    await first.waitFor({ state: 'detached' });
    expect(await isLost()).toBe(false);
    await page.locator('.runs .by', { hasText: 'right as it stands: HN' }).waitFor();
    await press(/^Ask again/);
    await first.waitFor();
    expect(await page.locator('.confirmed-title').count()).toBe(0);
  });

  it('a depth of the driller is taken to every other scale, and to the hole that it is spliced to', async () => {
    await at('scales');
    await tabTo(/^Depth$/);
    await page.keyboard.type('60');
    const row = (name: string) => page.locator('.converter tr', { hasText: name }).locator('td');
    await expect.poll(() => row('Solved').textContent()).toMatch(/^\d\d\.\d\d\sm\s±\s\d+\scm$/);
    await expect.poll(() => row('CER-A').textContent()).toMatch(/^\d\d\.\d\d\sm/);
    await press(/^Logger’s$/);
    await expect.poll(() => row('Logger’s').textContent()).toMatch(/^60\.00/);
  });

  it('a zero is measured again, and a splice moved by a millimetre with its reason', async () => {
    await at('zeros');
    await page.locator('.levels canvas').waitFor();
    await press(/^Measure again: Zero 2/);
    await page.getByRole('dialog').waitFor();
    await press(/^Higher/);
    await page.keyboard.type('31.6');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.locator('.zero-list .run', { hasText: '31.6' }).waitFor();
    await press(/^1 mm more/);
    await tabTo(/why it is changed/);
    await page.keyboard.type('dust matched again');
    await press(/^Correct this splice/);
    await page.locator('.splice-form s', { hasText: '42.6' }).waitFor();
    expect(await page.getByLabel('Offset').inputValue()).toBe('42.7');
  });

  it('a piece is reached on the core, its density and the history of its readings are read', async () => {
    await at('core');
    await page.locator('.core-axis-panel').waitFor();
    await tabTo(/^Core of hole/);
    await page.keyboard.press('ArrowUp');
    await page.getByText('bottom of piece B-P128.1').waitFor();
    await page.locator('.this-ice dd', { hasText: 'kg/m³' }).waitFor();
    await press(/^With the entries’ ids/);
    expect(await page.locator('.entry-id').first().textContent()).toMatch(/^[0-9a-f-]{36}$/);
  });
});

describe('On a phone', () => {
  it('nothing scrolls sideways, and the device opens where it last was', async () => {
    // A narrow phone, and this browser's scroll bar.
    await page.setViewportSize({ width: 360 + 15, height: 780 });
    for (const place of ['today', 'core', 'scales', 'readings', 'zeros']) {
      await at(place);
      await page.locator('main h1').first().waitFor({ state: 'attached' });
      await page.waitForTimeout(1500);
      // What is fixed to the edge makes no page wider: it is cut.
      const cut = await page.evaluate(() =>
        [document.documentElement, ...document.querySelectorAll('.top, .whose, .places')]
          .filter((box) => box.scrollWidth > box.clientWidth)
          .map((box) => `${box.className || box.tagName}: ${box.scrollWidth} in ${box.clientWidth}`),
      );
      expect([place, cut]).toEqual([place, []]);
    }
    await page.goto(season);
    await page.getByRole('heading', { name: 'Zeros of hole B' }).waitFor();
  });
});
