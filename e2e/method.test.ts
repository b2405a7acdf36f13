import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CampComputer } from './camp.ts';
import { openSeason, startDemoCamp } from './demo-camp.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

let scratch: Scratch;
let camp: CampComputer;
let tablet: Tablet;
let page: Page;
let season: string;
const refused: string[] = [];

beforeAll(async () => {
  scratch = makeScratch('method');
  camp = await startDemoCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'), { width: 1440, height: 900 });
  page = tablet.page;
  tablet.context.on('page', (opened) => listenOn(opened));
  listenOn(page);
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch.remove();
});

function listenOn(opened: Page): void {
  opened.on('console', (message) => {
    if (/Content Security Policy|Refused to/.test(message.text())) refused.push(message.text());
  });
}

const at = (name: string) => `${camp.address}/method/${name}.html`;

/** Addresses of the method site that this device holds. */
const kept = (): Promise<readonly string[]> =>
  page.evaluate(async () => {
    const names = await caches.keys();
    const requests = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return requests
      .flat()
      .map((request) => new URL(request.url).pathname)
      .filter((path) => path.startsWith('/method/'));
  });

/** Every page of the site, as its own lists name them. */
const everyPage = async (): Promise<readonly string[]> => {
  const names = new Set<string>();
  for (const list of ['index', 'relations', 'constants', 'checks']) {
    await page.goto(at(list));
    const found = await page
      .locator('a')
      .evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''));
    for (const href of found) {
      const name = /^([a-z0-9-]+)\.html/.exec(href)?.[1];
      if (name !== undefined) names.add(name);
    }
  }
  expect(names.size).toBeGreaterThan(30);
  return [...names];
};

describe('The method pages', () => {
  it('are no part of the first load', async () => {
    season = await openSeason(tablet, camp);
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    expect(await kept()).toEqual([]);
  });

  it('open from how a depth came about, beside the screen, at the equations', async () => {
    await page.goto(`${season}/B/core`);
    await page.locator('.density-summary').waitFor();
    await page.locator('.this-ice').getByRole('button', { name: 'how' }).first().click();
    await page.getByRole('dialog').waitFor();
    const [opened] = await Promise.all([
      tablet.context.waitForEvent('page'),
      page.getByRole('dialog').getByRole('link', { name: 'how: solved depths (new tab)' }).click(),
    ]);
    await opened.getByRole('heading', { name: 'Solved depths' }).waitFor();
    expect(opened.url()).toBe(`${at('depth')}#equations`);
    const equations = opened.getByRole('heading', { name: 'Equations' });
    expect(await equations.evaluate((one) => Math.abs(one.getBoundingClientRect().top))).toBeLessThan(60);
    expect(await opened.locator('math').count()).toBeGreaterThan(5);
    await opened.close();
    // The dialog is still there.
    await page.getByRole('dialog').getByRole('button', { name: 'Close' }).waitFor();
    await page.keyboard.press('Escape');
  });

  it('open from how a density came about', async () => {
    await page.goto(`${season}/B/core`);
    await page.locator('.density-summary').waitFor();
    await page.locator('.this-ice').getByRole('button', { name: 'how' }).last().click();
    const [opened] = await Promise.all([
      tablet.context.waitForEvent('page'),
      page.getByRole('dialog').getByRole('link', { name: 'The whole method' }).click(),
    ]);
    await opened.getByRole('heading', { level: 1, name: /density/i }).waitFor();
    await opened.close();
  });

  it('show equations in the font that is served, and the look of the device', async () => {
    await page.evaluate(() => localStorage.setItem('firnbook.look', 'night'));
    await page.goto(at('depth'));
    expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('night');
    const fonts = await page.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].filter(({ status }) => status === 'loaded').map(({ family }) => family);
    });
    expect(fonts.join()).toContain('Noto Sans Math');
    expect(fonts.join()).toContain('Atkinson Hyperlegible Next');
    await page.evaluate(() => localStorage.setItem('firnbook.look', 'standard'));
  });

  it('can be walked with keys alone: past the head to the text, to a section, to another page', async () => {
    await page.goto(at('index'));
    const keys = keysOn(page);
    await page.keyboard.press('Tab');
    expect(await keys.focused()).toBe('To the text');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('page');
    await keys.press(/^Bench verdict$/);
    await page.getByRole('heading', { level: 1, name: 'Bench verdict' }).waitFor();
    await keys.press(/^A day$/);
    expect(page.url()).toBe(`${at('verdict')}#a-day`);
    await page.goto(at('verdict'));
    await keys.press(/^Relations$/);
    await page.getByRole('heading', { level: 1, name: 'All relations' }).waitFor();
  });

  it.each(['index', 'depth', 'creep-and-closure', 'relations-mechanics'])(
    'have nothing that axe-core finds, in any look: %s',
    async (name) => {
      await page.goto(at(name));
      expect(await violationsOn(page)).toEqual([]);
    },
  );

  it('on a phone, every one: nothing that axe-core finds, none too wide, all of it in reach of Tab', async () => {
    const phone = [390, 844] as const;
    const wrong: string[] = [];
    for (const name of await everyPage()) {
      await page.setViewportSize({ width: phone[0], height: phone[1] });
      await page.goto(at(name));
      await page.evaluate(async () => void (await document.fonts.ready));
      const found = await page.evaluate(() => {
        const over = document.documentElement.scrollWidth - window.innerWidth;
        const unreached = [...document.querySelectorAll<HTMLElement>('.scroll, .equation, pre')].filter(
          (one) => one.scrollWidth > one.clientWidth + 1 && one.tabIndex !== 0,
        );
        return [over > 0 ? `${over} px too wide` : '', unreached.length > 0 ? 'parts out of reach' : ''];
      });
      const broken = await violationsOn(page, { looks: ['standard'], sizes: [phone] });
      wrong.push(...[...found, ...broken].filter((one) => one !== '').map((one) => `${name}: ${one}`));
    }
    expect(wrong).toEqual([]);
  }, 400_000);

  it('an address without a page goes to the first one, or is plainly not there', async () => {
    await page.goto(`${camp.address}/method/`);
    expect(page.url()).toBe(at('index'));
    expect((await page.goto(at('nothing')))?.status()).toBe(404);
  });

  it('are kept once the screens have settled, and are all read while the camp computer is off', async () => {
    const names = await everyPage();
    await page.goto(`${season}/B/core`);
    const worker = await (await fetch(`${camp.address}/sw.js`)).text();
    const files = Object.keys(JSON.parse(/const LATER = (\{.*\});/.exec(worker)?.[1] ?? '{}'));
    expect(files.length).toBeGreaterThan(names.length);
    for (let tries = 0; tries < 120 && (await kept()).length < files.length; tries += 1)
      await page.waitForTimeout(500);
    await camp.kill();
    for (const name of names) {
      await page.goto(at(name));
      await page.locator('h1').waitFor();
    }
    await page.goto(at('verdict'));
    await page.getByRole('link', { name: 'solved', exact: true }).click();
    await page.getByRole('heading', { level: 1, name: 'Solved depths' }).waitFor();
    const styled = await page.evaluate(() => getComputedStyle(document.body).fontFamily);
    expect(styled).toContain('Atkinson');
    await camp.restart();
  }, 300_000);

  it('nothing on them was refused by the content policy', () => {
    expect(refused).toEqual([]);
  });
});
