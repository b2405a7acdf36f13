import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { answer, drillRun, goTo, logPiece, openCampaign, pad } from './first-steps.ts';
import { makeScratch, root, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';

declare global {
  interface Window {
    axe: typeof axe;
  }
}

const source = readFileSync(join(root, 'node_modules/axe-core/axe.min.js'), 'utf8');
const looks = ['standard', 'sun', 'night'] as const;

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

/** What axe-core finds against WCAG 2.2 A and AA (contrast AAA inside field forms), in every look and width. */
async function violations(): Promise<readonly string[]> {
  const found: string[] = [];
  for (const [width, height] of [
    [1440, 900],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    for (const look of looks) {
      await page.evaluate((name) => {
        document.documentElement.dataset.theme = name;
      }, look);
      await page.evaluate(source);
      const lines = await page.evaluate(async () => {
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        const whole = await window.axe.run(document, { runOnly: tags });
        const forms = document.querySelector('.question')
          ? await window.axe.run('.question', {
              runOnly: { type: 'rule', values: ['color-contrast-enhanced'] },
            })
          : { violations: [] };
        return [...whole.violations, ...forms.violations].map(
          (one) => `${one.id}: ${one.nodes.map((node) => node.target.join(' ')).join(', ')}`,
        );
      });
      found.push(...lines.map((line) => `${look}, ${width} px: ${line}`));
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
  return found;
}

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

  it('on a conflict: two runs of one name side by side, and when a person has settled it', async () => {
    await goTo(page, 'Drill');
    await page.getByRole('button', { name: 'Not run 2?' }).click();
    await pad(page, '1');
    await page.locator('.question button[type="submit"]').click();
    await drillRun(page, { to: '1.74' });
    await page.locator('[data-conflict="same name"] button').click();
    await page.getByRole('dialog').waitFor();
    expect(await violations()).toEqual([]);
    await page.locator('[data-settle="renumber-second"]').click();
    await page.locator('[data-conflict]').waitFor({ state: 'detached' });
    expect(await page.locator('.runs .run .name').allTextContents()).toEqual(['B-R002', 'B-R001']);
    expect(await page.locator('.runs .alias').first().textContent()).toContain('B-R001');
    expect(await violations()).toEqual([]);
  });

  it('has teeth: a grey that passes AA but not AAA is found in a field form', async () => {
    await goTo(page, 'Log');
    await page.evaluate(() => document.documentElement.style.setProperty('--ink-2', '#67737c'));
    expect((await violations()).filter((line) => line.includes('color-contrast-enhanced'))).not.toEqual([]);
  });
});
