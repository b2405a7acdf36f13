import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** The first work without a mouse or a finger: frost on the screen, a keyboard in the lap. Key events alone. */

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;

beforeAll(async () => {
  scratch = makeScratch('keyboard');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'));
  page = tablet.page;
  await page.goto(camp.address);
  await page.getByRole('button', { name: 'Open the campaign' }).waitFor();
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch?.remove();
});

/** What has the focus, as it is called. */
function focused(): Promise<string> {
  return page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement | null;
    return at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '';
  });
}

/** Tab until the focus is on what is called so; a person gives up after forty. */
async function tabTo(name: RegExp): Promise<void> {
  for (let presses = 0; presses < 40; presses += 1) {
    if (name.test(await focused())) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`Forty times Tab do not lead to ${name}; the last one led to "${await focused()}".`);
}

async function press(name: RegExp): Promise<void> {
  await tabTo(name);
  await page.keyboard.press('Enter');
}

const heading = (name: RegExp) => page.getByRole('heading', { name }).first().waitFor();

async function number(text: string): Promise<void> {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

describe('With the keyboard alone', () => {
  it('opens a campaign, a hole and its zero, and reads the cautions', async () => {
    await tabTo(/^Name of the campaign/);
    await page.keyboard.type('Ceredin Saddle, keys');
    await page.keyboard.press('Tab');
    await page.keyboard.type('HN');
    await page.keyboard.press('Enter');
    await heading(/Which hole/);
    await press(/^B/);
    await heading(/What is the zero/);
    // The usual answer has the focus.
    expect(await focused()).toContain('Snow surface');
    await page.keyboard.press('Enter');
    await heading(/Before this shift/);
    await press(/^Read; to the form/);
    await heading(/Run 1: depth from/);
  });

  it('logs two runs and a piece with digits, arrows and Enter, without one Tab', async () => {
    await number('0');
    await heading(/Run 1: depth to/);
    await number('0,92');
    await heading(/Run 1: what came up/);
    await page.keyboard.press('Enter');
    await heading(/^B-R001/);
    await page.keyboard.press('Enter');
    await heading(/Run 2: depth from/);
    await page.keyboard.press('Enter');
    await heading(/Run 2: depth to/);
    await number('1.81');
    await heading(/Run 2: what came up/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await heading(/^B-R002/);
    await press(/^Log$/);
    await heading(/B-R002, piece 1: does its top fit/);
    await page.keyboard.press('Enter');
    await heading(/B-R002, piece 1: length/);
    await number('83.4');
    await heading(/^B-P002.1/);
  });

  it('corrects a length with its reason, and the focus comes back to where it was', async () => {
    await press(/^Correct B-P002.1/);
    await heading(/Which reading/);
    await page.keyboard.press('Enter');
    await heading(/New: Length/);
    await number('84.3');
    await heading(/Why/);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.locator('s', { hasText: '83.4' }).first().waitFor();
    expect(await focused()).toContain('Correct B-P002.1');
  });

  it('sounds the hole, and finds the sounding in its list', async () => {
    await press(/^Drill$/);
    await heading(/Run 3: depth from/);
    await press(/^Sound the hole/);
    await number('1.80');
    await heading(/How well/);
    await page.keyboard.press('Enter');
    await heading(/^Sounding after B-R002: 1.80/);
    await press(/^Correct Sounding after B-R002/);
    await heading(/Which reading/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await heading(/New: Read to/);
    await number('1.5');
    await heading(/Why/);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.locator('.runs .run', { hasText: '1.5\u00a0cm' }).waitFor();
    await press(/^Next run/);
  });

  it('settles two runs of one name', async () => {
    await heading(/Run 3: depth from/);
    await press(/^Not run 3/);
    await number('2');
    await heading(/Run 2: depth from/);
    await page.keyboard.press('Enter');
    await heading(/Run 2: depth to/);
    await number('2.70');
    await heading(/Run 2: what came up/);
    await page.keyboard.press('Enter');
    await heading(/^B-R002/);
    await press(/^Settle it/);
    await page.getByRole('dialog').waitFor();
    await press(/^Second is another run: renumber to 3/);
    await page.locator('[data-conflict]').waitFor({ state: 'detached' });
    await page.locator('.runs .run', { hasText: 'B-R003' }).waitFor();
    // The button that opened it is gone; the focus is not lost with it.
    expect(await page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
  });
});
