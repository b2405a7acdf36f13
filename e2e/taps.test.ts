import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { cramped } from './cramped.ts';
import { answer, drillRun, goTo, logPiece, openCampaign, pad } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';

declare global {
  var taps: number;
}

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;

beforeAll(async () => {
  scratch = makeScratch('taps');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'), { width: 820, height: 1180 });
  page = tablet.page;
  await openCampaign(page, camp.address, 'Ceredin Saddle, taps');
  await page.evaluate(() => {
    window.addEventListener('click', (event) => event.isTrusted && globalThis.taps++, { capture: true });
  });
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch.remove();
});

async function counted(work: () => Promise<void>): Promise<number> {
  await page.evaluate(() => {
    globalThis.taps = 0;
  });
  await work();
  return page.evaluate(() => globalThis.taps);
}

describe('Taps in the field forms', () => {
  it('the driller’s usual run takes at most 12 taps', async () => {
    await drillRun(page, { from: '0', to: '0.92' });
    await answer(page, 'next');
    const taps = await counted(() => drillRun(page, { to: '29.48' }));
    expect(taps).toBeGreaterThan(0);
    expect(taps).toBeLessThanOrEqual(12);
    await answer(page, 'next');
  });

  it('the logger’s run of three pieces with lengths of three digits and breaks takes at most 25 taps', async () => {
    await goTo(page, 'Log');
    const taps = await counted(async () => {
      await logPiece(page, { topBreak: 'fits', length: '42.6' });
      await answer(page, 'next');
      await logPiece(page, { topBreak: 'loss', loss: '2', length: '31.4' });
      await answer(page, 'next');
      await logPiece(page, { topBreak: 'unsure', length: '12.7' });
      await answer(page, 'done');
    });
    expect(taps).toBeLessThanOrEqual(25);
  });

  it('masses with tare and two diameters of the three pieces take at most 30 taps more', async () => {
    const next = () => page.locator('.question button[type="submit"]').click();
    const near = (value: string) => page.locator(`[data-value="${value}"]`).click();
    const taps = await counted(async () => {
      await answer(page, 'weigh');
      await pad(page, '145');
      await next();
      await pad(page, '2150');
      await next();
      // The first diameter of a hole is typed; from then on its neighbours are buttons.
      await pad(page, '98.2');
      await next();
      await near('98.1');
      for (const [mass, top, bottom] of [
        ['1633', '98.3', '98.2'],
        ['812', '98.0', '98.2'],
      ] as const) {
        await page.getByRole('heading', { name: /mass$/ }).waitFor();
        await pad(page, mass);
        await next();
        await near(top);
        await near(bottom);
      }
    });
    expect(taps).toBeLessThanOrEqual(30);
    await page.getByRole('heading', { name: 'B-R002 is weighed and measured' }).waitFor();
    const said = await page.locator('.said li').allTextContents();
    expect(said).toHaveLength(3);
    expect(said[0]).toContain('2150\u00a0g');
    expect(said[0]).toContain('145\u00a0g');
    expect(said[0]).toContain('98.1\u00a0mm');
    expect(said[2]).toContain('98.0\u00a0mm');
    await answer(page, 'back');
  });

  it('a run that brought nothing is one button; more of a run is one tap and one answer each', async () => {
    await goTo(page, 'Drill');
    const taps = await counted(async () => {
      await page.locator('.question button[type="submit"]').click();
      await pad(page, '30.01');
      await page.locator('.question button[type="submit"]').click();
      await answer(page, 'nothing');
      await page.locator('.answer').waitFor();
    });
    expect(taps).toBeLessThanOrEqual(12);
    const more = await counted(async () => {
      await answer(page, 'more');
      await answer(page, 'counter');
      await answer(page, 'zeroed');
      await answer(page, 'chips');
      await pad(page, '1.4');
      await page.locator('.question button[type="submit"]').click();
      await answer(page, 'done');
    });
    expect(more).toBeLessThanOrEqual(10);
    await answer(page, 'next');
  });

  it('a run by the hardware keyboard alone, with a comma: digits, Enter, nothing else', async () => {
    await page.getByRole('heading', { name: /depth from/ }).waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /depth to/ }).waitFor();
    await page.keyboard.type('30,9');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /what came up/ }).waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await page.locator('.answer').waitFor();
    await page.locator('.runs', { hasText: '30,9\u00a0m' }).waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /depth from/ }).waitFor();
  });

  it('a scanner that types into the page finds the field, wherever the focus is', async () => {
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.type('31.8');
    expect(await page.locator('.field input').inputValue()).toBe('31.8');
    for (let digit = 0; digit < 4; digit += 1) await page.keyboard.press('Backspace');
  });

  it('a form that was begun is there again after a reload', async () => {
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /depth to/ }).waitFor();
    await page.keyboard.type('31,8');
    await page.reload();
    await page.getByRole('heading', { name: /depth to/ }).waitFor();
    expect(await page.locator('.field input').inputValue()).toBe('31,8');
  });

  it('targets are at least 15 mm and 3 mm apart, on a tablet and on a phone', async () => {
    for (const size of [
      { width: 820, height: 1180 },
      { width: 390, height: 844 },
    ]) {
      await page.setViewportSize(size);
      expect(await cramped(page)).toEqual([]);
      await goTo(page, 'Log');
      expect(await cramped(page)).toEqual([]);
      await goTo(page, 'Drill');
    }
  });
});
