import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { type Keys, keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** The first work without a mouse or a finger: frost on the screen, a keyboard in the lap. Key events alone. */

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;
let keys: Keys;

beforeAll(async () => {
  scratch = makeScratch('keyboard');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'));
  page = tablet.page;
  keys = keysOn(page);
  await page.goto(camp.address);
  await page.getByRole('button', { name: 'Open the campaign' }).waitFor();
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch?.remove();
});

describe('With the keyboard alone', () => {
  it('opens a campaign, a hole and its zero, and reads the cautions', async () => {
    await keys.tabTo(/^Name of the campaign/);
    await page.keyboard.type('Ceredin Saddle, keys');
    await page.keyboard.press('Tab');
    await page.keyboard.type('HN');
    await page.keyboard.press('Enter');
    await keys.heading(/Which hole/);
    await keys.press(/^B/);
    await keys.heading(/What is the zero/);
    // The usual answer has the focus.
    expect(await keys.focused()).toContain('Snow surface');
    await page.keyboard.press('Enter');
    await keys.heading(/Before this shift/);
    await keys.press(/^Read; to the form/);
    await keys.heading(/Run 1: depth from/);
  });

  it('logs two runs and a piece with digits, arrows and Enter, without one Tab', async () => {
    await keys.number('0');
    await keys.heading(/Run 1: depth to/);
    await keys.number('0,92');
    await keys.heading(/Run 1: what came up/);
    await page.keyboard.press('Enter');
    await keys.heading(/^B-R001/);
    await page.keyboard.press('Enter');
    await keys.heading(/Run 2: depth from/);
    await page.keyboard.press('Enter');
    await keys.heading(/Run 2: depth to/);
    await keys.number('1.81');
    await keys.heading(/Run 2: what came up/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await keys.heading(/^B-R002/);
    await keys.press(/^Log$/);
    await keys.heading(/B-R002, piece 1: does its top fit/);
    await page.keyboard.press('Enter');
    await keys.heading(/B-R002, piece 1: length/);
    await keys.number('83.4');
    await keys.heading(/^B-P002.1/);
  });

  it('corrects a length with its reason, and the focus comes back to where it was', async () => {
    await keys.press(/^Correct B-P002.1/);
    await keys.heading(/Which reading/);
    await page.keyboard.press('Enter');
    await keys.heading(/New: Length/);
    await keys.number('84.3');
    await keys.heading(/Why/);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.locator('s', { hasText: '83.4' }).first().waitFor();
    expect(await keys.focused()).toContain('Correct B-P002.1');
  });

  it('sounds the hole, and finds the sounding in its list', async () => {
    await keys.press(/^Drill$/);
    await keys.heading(/Run 3: depth from/);
    await keys.press(/^Measure or set up/);
    await keys.heading(/What is measured/);
    // The first of the list has the focus.
    expect(await keys.focused()).toContain('Sound the hole');
    await page.keyboard.press('Enter');
    await keys.heading(/Depth of the hole/);
    await keys.number('1.80');
    await keys.heading(/How well/);
    await page.keyboard.press('Enter');
    await keys.heading(/^Sounding after B-R002/);
    await keys.press(/^Correct Sounding after B-R002/);
    await keys.heading(/Which reading/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await keys.heading(/New: Uncertainty/);
    await keys.number('1.5');
    await keys.heading(/Why/);
    await page.keyboard.press('Enter');
    await page.locator('.runs .run', { hasText: '1.5\u00a0cm' }).waitFor();
    await keys.press(/^Back to the runs/);
  });

  it('settles two runs of one name', async () => {
    await keys.heading(/Run 3: depth from/);
    await keys.press(/^Not run 3/);
    await keys.number('2');
    await keys.heading(/Run 2: depth from/);
    await page.keyboard.press('Enter');
    await keys.heading(/Run 2: depth to/);
    await keys.number('2.70');
    await keys.heading(/Run 2: what came up/);
    await page.keyboard.press('Enter');
    await keys.heading(/^B-R002/);
    await keys.press(/^Settle it/);
    await page.getByRole('dialog').waitFor();
    await keys.press(/^Second is another run: renumber to 3/);
    await page.locator('[data-conflict]').waitFor({ state: 'detached' });
    await page.locator('.runs .run', { hasText: 'B-R003' }).waitFor();
    // The button that opened it is gone; the focus is not lost with it.
    expect(await page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
  });
});
