import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { cramped } from './cramped.ts';
import { goTo, openCampaign, pad } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';
import { whoMade } from './who-made.ts';

/** Two people and one tablet, in a campaign that asks for PINs. Each part goes on where the one before it ended. */

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;
let campaign: string;

beforeAll(async () => {
  scratch = makeScratch('pin');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'), { width: 820, height: 1180 });
  page = tablet.page;
  await openCampaign(page, camp.address, 'Ceredin Saddle, PINs');
  campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
  await atCamp();
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch?.remove();
});

const atCamp = () => page.locator('.ticks').getByText('on the camp computer').waitFor({ timeout: 15_000 });
const asked = (title: string) => page.getByRole('heading', { name: title, exact: true }).waitFor();
const take = () => page.locator('.pin button[type="submit"]').click();
const unchecked = () => page.getByText('PIN not checked.');
const writes = (initials: string) =>
  page.getByRole('button', { name: new RegExp(`^Writing: ${initials}\\. Change`) }).waitFor();
const nobodyWrites = () => page.locator('.top').getByRole('button', { name: 'Who is writing?' }).waitFor();
const handOverTo = (initials: string) =>
  page.getByRole('button', { name: `Hand over to ${initials}`, exact: true });

/** Digit by digit on the pad, as a thumb would; the field shows dots and nothing else. */
async function give(pin: string): Promise<void> {
  await page.locator('.pin input:enabled').waitFor();
  for (const digit of pin)
    await page.locator('.pin .pad').getByRole('button', { name: digit, exact: true }).click();
  expect(await page.locator('.pin input').inputValue()).toBe('•'.repeat(pin.length));
  await take();
}

/** What the tablet keeps of a PIN is worked out beside the screen, after the PIN was taken; a reload ends that. */
const keepsThree = () =>
  page.waitForFunction(
    () => Object.keys(localStorage).filter((name) => name.startsWith('firnbook.pin.')).length === 3,
  );

/** The camp computer is away, and the tablet knows. */
async function goOffline(): Promise<void> {
  await camp.kill();
  await page.getByRole('link', { name: 'Drill' }).click();
}

describe('A PIN where the campaign asks for one', () => {
  it('nothing is asked before; then whoever writes is asked, logs on meanwhile, and chooses one', async () => {
    expect(await unchecked().isVisible()).toBe(false);
    await page.goto(`${camp.address}/c/${campaign}/B/people`);
    await page.getByRole('button', { name: /^Ask for a PIN/ }).click();
    await unchecked().waitFor();
    await page.getByText('Has no PIN yet').waitFor();
    await goTo(page, 'Drill');
    await page.getByRole('heading', { name: 'Run 1: depth from' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Give PIN' }).click();
    await asked('HN, choose a PIN');
    await give('1234');
    await page.getByText('one of those that are tried first').waitFor();
    await give('2718');
    await asked('HN, the same PIN once more');
    await give('2719');
    await page.getByText('The two are not the same').waitFor();
    await give('2718');
    await give('2718');
    await unchecked().waitFor({ state: 'detached' });
    await writes('HN');
  });

  it('somebody new adds initials, chooses a PIN and writes', async () => {
    await page.getByRole('button', { name: /^Writing: HN/ }).click();
    await page.getByLabel('Somebody else: initials').fill('KT');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await asked('KT, choose a PIN');
    await give('31415');
    await asked('KT, the same PIN once more');
    await give('31415');
    await writes('KT');
    expect(await unchecked().isVisible()).toBe(false);
  });

  it('one tap hands over: from then on nobody writes until the PIN is right', async () => {
    await handOverTo('HN').click();
    await asked('PIN of HN');
    await nobodyWrites();
    expect(await violationsOn(page)).toEqual([]);
    await give('3141');
    await page.getByText('This PIN is wrong. Nobody has taken over.').waitFor();
    await nobodyWrites();
    await give('2718');
    await writes('HN');
  });

  it('a reload keeps who writes, and that they gave their PIN', async () => {
    await page.reload();
    await writes('HN');
    await page.locator('.question').waitFor();
    expect(await unchecked().isVisible()).toBe(false);
  });

  it('a half-filled form stays across the hand-over, and the entry is by whoever saves', async () => {
    await goTo(page, 'Drill');
    await pad(page, '12.3');
    await page.locator('.question button[type="submit"]').click();
    await page.getByRole('heading', { name: 'Run 1: depth to' }).waitFor();
    await handOverTo('KT').click();
    await give('31415');
    await writes('KT');
    await page.getByRole('heading', { name: 'Run 1: depth to' }).waitFor();
    await pad(page, '13.2');
    await page.locator('.question button[type="submit"]').click();
    await page.locator('[data-choice="core"]').click();
    await page.locator('.answer').waitFor();
    await page.locator('[data-choice="next"]').click();
    await atCamp();
    expect((await whoMade(camp.address, campaign)).at(-1)).toBe('KT run.logged');
  });

  it('with the keyboard alone: to the button, the digits, Enter', async () => {
    await handOverTo('HN').focus();
    await page.keyboard.press('Enter');
    await asked('PIN of HN');
    await page.getByText('The camp computer checks them').waitFor();
    await page.keyboard.type('27199');
    await page.keyboard.press('Backspace');
    await page.keyboard.press('Backspace');
    await page.keyboard.type('8');
    await page.keyboard.press('Enter');
    await writes('HN');
    expect(await page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
  });

  it('"Hand over" in the dialog leaves the tablet to nobody', async () => {
    await page.getByRole('button', { name: /^Writing: HN/ }).click();
    await page.getByRole('button', { name: /^Hand over: nobody writes/ }).click();
    await nobodyWrites();
    await page.getByRole('button', { name: 'KT', exact: true }).click();
    await asked('PIN of KT');
    for (const size of [
      { width: 390, height: 844 },
      { width: 820, height: 1180 },
    ]) {
      await page.setViewportSize(size);
      expect(await cramped(page), `${size.width} px`).toEqual([]);
    }
    await give('31415');
    await writes('KT');
  });
});

describe('At phone size', () => {
  it('the button to hand over stands in the header, and the hole is named in full', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    const shown = await page.locator('.top').evaluate((top) => {
      const boxOf = (name: string) => top.querySelector(name)!.getBoundingClientRect();
      const [hole, whose, before] = [boxOf('.camp-hole'), boxOf('.whose'), boxOf('.round.before')];
      return {
        isHoleWhole: hole.width > 20 && hole.left >= whose.left && hole.right <= whose.right + 1,
        isIn: before.left >= 0 && before.right <= document.documentElement.clientWidth,
        isRow: top.getBoundingClientRect().height < 70,
        isSideways: document.documentElement.scrollWidth > document.documentElement.clientWidth,
      };
    });
    expect(shown).toEqual({ isHoleWhole: true, isIn: true, isRow: true, isSideways: false });
    await handOverTo('HN').click();
    await asked('PIN of HN');
    await page.getByText('The camp computer checks them').waitFor();
    await give('2718');
    await writes('HN');
    await handOverTo('KT').click();
    await give('31415');
    await writes('KT');
    await page.setViewportSize({ width: 820, height: 1180 });
  });
});

describe('While the camp computer is away', () => {
  it('the tablet checks a PIN that it has seen, by itself', async () => {
    await goOffline();
    await handOverTo('HN').click();
    await page.getByText('this tablet checks the PIN itself').waitFor();
    await give('2719');
    await page.getByText('This PIN is wrong').waitFor();
    await give('2718');
    await writes('HN');
    expect(await unchecked().isVisible()).toBe(false);
  });

  it('somebody whose PIN it has not seen logs, and changes no plan', async () => {
    await page.getByRole('button', { name: /^Writing: HN/ }).click();
    await page.getByLabel('Somebody else: initials').fill('MB');
    await page.getByRole('button', { name: 'Add', exact: true }).click();
    await page.getByRole('button', { name: 'Write as MB, PIN not checked' }).click();
    await writes('MB');
    await unchecked().waitFor();
    await goTo(page, 'Drill');
    // The next person reads the cautions too.
    await page.getByRole('button', { name: 'Read; to the form' }).click();
    await page.locator('.question button[type="submit"]').click();
    await pad(page, '14.1');
    await page.locator('.question button[type="submit"]').click();
    await page.locator('[data-choice="core"]').click();
    await page.locator('.answer').waitFor();
    await page.locator('[data-choice="next"]').click();
    await page.locator('.whose').click();
    await page.getByRole('button', { name: 'Open another hole' }).click();
    await page.locator('[data-choice="C"]').click();
    await page.getByRole('button', { name: 'Snow surface' }).click();
    await page
      .getByText(/MB.*PIN/)
      .first()
      .waitFor();
    await page.locator('.refusal').waitFor();
  });

  it('is asked as soon as the camp computer answers, and then changes plans', async () => {
    await camp.restart();
    await page.getByText('MB, give your PIN').waitFor({ timeout: 40_000 });
    await page.getByRole('button', { name: 'Give PIN' }).click();
    await asked('MB, choose a PIN');
    await give('16180');
    await give('16180');
    await unchecked().waitFor({ state: 'detached' });
    const made = await whoMade(camp.address, campaign);
    expect(made.filter((one) => one === 'MB run.logged')).toHaveLength(1);
    expect(made.filter((one) => one === 'MB hole.logged')).toHaveLength(0);
  });
});

describe('A proof that is older than a shift', () => {
  it('is asked for again before a plan, and not before', async () => {
    await page.evaluate((id) => {
      const name = `firnbook.proof.${id}`;
      const [proof] = JSON.parse(localStorage.getItem(name) ?? '[]') as { at: number }[];
      localStorage.setItem(name, JSON.stringify([{ ...proof, at: Date.now() - 13 * 3_600_000 }]));
    }, campaign);
    await page.reload();
    await writes('MB');
    await page.locator('.question').waitFor();
    expect(await unchecked().isVisible()).toBe(false);
    await page.locator('.whose').click();
    await page.getByRole('button', { name: 'Open another hole' }).click();
    await page.locator('[data-choice="C"]').click();
    await page.getByRole('button', { name: 'Snow surface' }).click();
    await asked('This needs the PIN of MB');
    await give('16181');
    await page.getByText('This PIN is wrong').waitFor();
    await give('16180');
    await page.waitForURL(/\/C\/drill$/);
    await atCamp();
    expect(await whoMade(camp.address, campaign)).toContain('MB hole.logged');
    await keepsThree();
  });
});

describe('A forgotten PIN', () => {
  it('is reset at the camp computer, and chosen anew where the initials are picked', async () => {
    await page.goto(`${camp.address}/c/${campaign}/C/people`);
    const line = page.locator('[data-person="KT"] .pin-line');
    await line.getByText('Has a PIN.').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await line.getByRole('button', { name: 'Reset the PIN of KT' }).click();
    await line.getByRole('button', { name: 'Yes: KT chooses a new one' }).click();
    await line.getByText('Has no PIN yet').waitFor();
    await page.getByRole('button', { name: /^Writing: MB/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'KT', exact: true }).click();
    await asked('KT, choose a PIN');
    await give('8281');
    await give('8281');
    await writes('KT');
  });

  it('what the tablet kept of the old one is worth nothing after that', async () => {
    await keepsThree();
    await camp.kill();
    await handOverTo('MB').click();
    await give('16180');
    await writes('MB');
    await handOverTo('KT').click();
    await page.getByText('this tablet checks the PIN itself').waitFor();
    await give('31415');
    await page.getByText('This PIN is wrong').waitFor();
    await give('8281');
    await writes('KT');
  });

  it('guessing makes the person wait over a reload, keeps no colleague waiting, and stops no logging', async () => {
    await handOverTo('MB').click();
    for (const pin of ['4001', '4002', '4003']) {
      await give(pin);
      await page.getByText('This PIN is wrong').waitFor();
    }
    await page.reload();
    await page.getByRole('button', { name: 'MB', exact: true }).click();
    await give('16180');
    await page.getByText(/^Too many wrong PINs for MB here\. Wait \d+ seconds/).waitFor();
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('button', { name: 'KT', exact: true }).click();
    await give('8281');
    await writes('KT');
    await page.getByRole('button', { name: /^Writing: KT/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'MB', exact: true }).click();
    await give('16180');
    await page.getByRole('button', { name: 'Write as MB, PIN not checked' }).click();
    await writes('MB');
    await unchecked().waitFor();
  });
});
