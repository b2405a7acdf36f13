import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { answer, drillRun, goTo, logPiece, openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';

declare global {
  var taps: number;
}

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;

// 1 mm = 96 / 25.4 CSS pixels.
const millimetres = (px: number): number => (px * 25.4) / 96;

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

/** Visible targets of the open form that are smaller than 15 mm or nearer than 3 mm to the next one. */
function cramped(): Promise<readonly string[]> {
  return page.evaluate(() => {
    const mm = (px: number) => (px * 25.4) / 96;
    const targets = [
      ...document.querySelectorAll('.question button, .question input, .question + button'),
    ].filter((one) => one.checkVisibility());
    const boxes = targets.map((one) => ({
      name: one.getAttribute('aria-label') ?? one.textContent ?? '',
      box: one.getBoundingClientRect(),
    }));
    const small = boxes
      .filter(({ box }) => mm(box.width) < 15 || mm(box.height) < 15)
      .map(({ name, box }) => `${name}: ${mm(box.width).toFixed(1)} x ${mm(box.height).toFixed(1)} mm`);
    const near = boxes.flatMap((a, i) =>
      boxes.slice(i + 1).flatMap((b) => {
        const dx = Math.max(b.box.left - a.box.right, a.box.left - b.box.right);
        const dy = Math.max(b.box.top - a.box.bottom, a.box.top - b.box.bottom);
        const apart = mm(Math.max(dx, dy));
        return apart < 3 ? [`${a.name} and ${b.name}: ${apart.toFixed(1)} mm apart`] : [];
      }),
    );
    return [...small, ...near];
  });
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

  it('a run by the hardware keyboard alone, with a comma: digits, Enter, nothing else', async () => {
    await goTo(page, 'Drill');
    await page.getByRole('heading', { name: /depth from/ }).waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /depth to/ }).waitFor();
    await page.keyboard.type('30,4');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /what came up/ }).waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await page.locator('.answer').waitFor();
    expect(await page.locator('.runs').textContent()).toContain('30,4\u00a0m');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /depth from/ }).waitFor();
  });

  it('a scanner that types into the page finds the field, wherever the focus is', async () => {
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.type('31.2');
    expect(await page.locator('.field input').inputValue()).toBe('31.2');
    for (let digit = 0; digit < 4; digit += 1) await page.keyboard.press('Backspace');
  });

  it('a form that was begun is there again after a reload', async () => {
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /depth to/ }).waitFor();
    await page.keyboard.type('31,2');
    await page.reload();
    await page.getByRole('heading', { name: /depth to/ }).waitFor();
    expect(await page.locator('.field input').inputValue()).toBe('31,2');
  });

  it('targets are at least 15 mm and 3 mm apart, on a tablet and on a phone', async () => {
    expect(millimetres(57)).toBeGreaterThan(15);
    for (const size of [
      { width: 820, height: 1180 },
      { width: 390, height: 844 },
    ]) {
      await page.setViewportSize(size);
      expect(await cramped()).toEqual([]);
      await goTo(page, 'Log');
      expect(await cramped()).toEqual([]);
      await goTo(page, 'Drill');
    }
  });
});
