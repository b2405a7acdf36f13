import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { cramped } from './cramped.ts';
import { openSeason, startDemoCamp } from './demo-camp.ts';
import { pad } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { type Keys, keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

/** The bench calculator over every place: by keys alone, by a gloved thumb, without a campaign, without the camp computer. */

let scratch: Scratch;
let tablet: Tablet;
let page: Page;
let keys: Keys;

beforeAll(async () => {
  scratch = makeScratch('calculator');
  tablet = await openTablet(join(scratch.path, 'profile'));
  page = tablet.page;
  keys = keysOn(page);
});
afterAll(async () => {
  await tablet?.close();
  scratch.remove();
});

const dialog = () => page.getByRole('dialog', { name: 'Bench calculator' });
const open = async () => {
  await page.keyboard.press('Alt+c');
  await page.locator('[data-choice="density"]').waitFor();
};
const close = async () => {
  await page.keyboard.press('Escape');
  await dialog().waitFor({ state: 'detached' });
};
/** What is said once the answer has come, as a reader sees it. */
const said = async (what: RegExp): Promise<string> => {
  await page.locator('.calc-answer', { hasText: what }).waitFor();
  return ((await page.locator('.calc-answer').textContent()) ?? '').replaceAll('\u00a0', ' ');
};

/** Keys stay in sight over what scrolls under them: where targets stand is measured with the keys at their own place. */
async function withKeysBelow<T>(measure: () => Promise<T>): Promise<T> {
  const put = (position: string) =>
    page.locator('.calc-keys').evaluate((keypad, where) => {
      keypad.style.position = where;
    }, position);
  await put('static');
  const measured = await measure();
  await put('');
  return measured;
}

/** What a person types without a book, and what they hear. Numbers as in apps/web/src/calculator/questions.test.ts. */
const asked = [
  { key: 'density', typed: ['4200', '94', '98,2'], hears: /The piece has 590.kg\/m³, give or take/ },
  {
    key: 'closure',
    typed: ['100', '126', '5', '2'],
    hears: /The hole loses 2.mm in 7\.8.days, give or take/,
  },
  {
    key: 'stretch',
    typed: ['100', '60', '115', '400'],
    hears: /longer than the counter says by \d+.mm, give/,
  },
  {
    key: 'box',
    typed: ['25', '-5', '6', '50'],
    hears: /of ice comes to −15.°C after [\d.]+.hours, give or take/,
  },
  {
    key: 'age',
    typed: ['60', '150', '0.4', '14'],
    hears: /The age of the ice there is \d+.years, give or take/,
  },
] as const;

describe('Without a campaign and without the camp computer, on a phone', () => {
  let camp: CampComputer;
  beforeAll(async () => {
    camp = await startCamp(join(scratch.path, 'empty'));
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto(camp.address);
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    await camp.kill();
    await page.reload();
    await page.getByRole('button', { name: 'Open the campaign' }).waitFor();
  });
  afterAll(async () => {
    await camp?.kill();
  });

  it('answers the five questions by keyboard alone', async () => {
    await keys.press(/^Bench calculator$/);
    await page.locator('[data-choice="density"]').waitFor();
    for (const [at, { typed, hears }] of asked.entries()) {
      // The first has the focus.
      for (let down = 0; down < at; down += 1) await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      await page.locator('.calc-question').waitFor();
      for (const number of typed) await keys.number(number);
      expect(await said(hears)).toMatch(hears);
      expect(await page.evaluate(() => document.activeElement?.className)).toBe('calc-answer');
      await keys.press(/^Back$/);
      await page.locator('[data-choice="density"]').waitFor();
    }
    await close();
    expect(await keys.focused()).toBe('Bench calculator');
  });

  it('answers by touch, with a unit and a tolerance of one’s own, and says where a number is out of range', async () => {
    await open();
    await page.locator('[data-choice="density"]').click();
    await pad(page, '4.2');
    await page.getByRole('button', { name: /change to kg/ }).click();
    await page.getByRole('button', { name: 'Next' }).click();
    await pad(page, '94');
    await page.getByRole('button', { name: 'Next' }).click();
    await pad(page, '9.82');
    const problem = page.locator('[data-take="diameter"] .calc-problem');
    // Half a number is not out of range yet.
    expect(await problem.count()).toBe(0);
    await page.getByRole('button', { name: 'Answer' }).click();
    expect((await problem.textContent())?.replaceAll('\u00a0', ' ')).toMatch(
      /^9\.82 mm is out of range: 20 to 300 mm/,
    );
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    await page.getByRole('button', { name: /change to cm/ }).click();
    await page.locator('.calc-answer', { hasText: /590.±.\d/ }).waitFor();
    await page.getByLabel('Diameter, plus or minus').click();
    await pad(page, '0.2');
    await page.getByRole('button', { name: 'Answer' }).click();
    // 2 mm of 98.2 are twice as much of the density: 24 of 590.
    await page.locator('.calc-answer', { hasText: /590.±.24/ }).waitFor();
    expect(await page.locator('.calc-keys').isVisible()).toBe(false);
    await close();
  });

  it('has targets of 15 mm, 3 mm apart, and hides no field under its keys', async () => {
    await open();
    await page.locator('[data-choice="closure"]').click();
    await page.locator('.calc-question').waitFor();
    await page.getByRole('button', { name: /more quantities/ }).click();
    for (const [width, height] of [
      [390, 844],
      [360, 640],
    ] as const) {
      await page.setViewportSize({ width, height });
      expect(await withKeysBelow(() => cramped(page))).toEqual([]);
      for (const box of await page.locator('.calc-question input').all()) {
        await box.focus();
        const covered = await box.evaluate((one) => {
          const { left, bottom } = one.getBoundingClientRect();
          return !one.parentElement!.contains(document.elementFromPoint(left + 4, bottom - 4));
        });
        expect(covered).toBe(false);
      }
    }
    await page.setViewportSize({ width: 390, height: 844 });
    await close();
  });
});

describe('Over the season', () => {
  let camp: CampComputer;
  let season: string;
  beforeAll(async () => {
    await page.setViewportSize({ width: 1440, height: 900 });
    camp = await startDemoCamp(join(scratch.path, 'demo'));
    season = await openSeason(tablet, camp);
    await page.getByRole('button', { name: 'Read; to the form' }).click();
  });
  afterAll(async () => {
    await camp?.kill();
  });

  it('opens over every place and leaves it as it was', async () => {
    const places = [
      'today',
      'drill',
      'log',
      'core',
      'camp',
      'scales',
      'readings',
      'zeros',
      'versions',
      'import',
    ];
    for (const place of places) {
      await page.goto(`${season}/B/${place}`);
      await page.getByRole('navigation', { name: 'Places' }).waitFor();
      await open();
      await close();
      expect(page.url()).toBe(`${season}/B/${place}`);
    }
    await page.goto(`${season}/B/drill`);
    await page.locator('.question .field input').waitFor();
    await page.keyboard.type('111.2');
    await open();
    await page.keyboard.press('Enter');
    await page.locator('.calc-question').waitFor();
    await page.keyboard.type('3');
    await close();
    expect(await page.locator('.question .field input').inputValue()).toBe('111.2');
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
  });

  it('opens over another dialog, and goes back to it', async () => {
    await page.goto(`${season}/B/drill`);
    await page.getByRole('button', { name: /^Writing: HN/ }).click();
    await page.getByRole('dialog', { name: 'Who is writing?' }).waitFor();
    await open();
    await close();
    await page.getByRole('dialog', { name: 'Who is writing?' }).waitFor();
    await page.keyboard.press('Escape');
  });

  it('fills in what the book knows, says where it comes from, and writes nothing', async () => {
    const id = /\/c\/([^/]+)/.exec(season)![1]!;
    const before = (await camp.digest(id)).entries;
    const from = (take: string) => page.locator(`[data-take="${take}"] .calc-from`).textContent();
    await open();
    await page.locator('[data-choice="density"]').click();
    await said(/The piece has/);
    expect(await from('mass')).toMatch(/^B-P128\.\d, mass: [A-Z]{2}, .*; less its tare$/);
    expect(await from('diameter')).toMatch(/^B-P128\.\d, mean of \d diameters/);
    // Nothing is missing, so the answer has the focus; digits still go into the first field.
    await page.keyboard.type('9900');
    expect(await said(/Not possible/)).toMatch(/Not possible: denser than ice can be.*Measure again/);
    expect(await from('mass')).toMatch(/^Typed here\. The book says [\d.]+.g \(B-P128/);
    await keys.press(/^Back$/);
    await page.locator('[data-choice="closure"]').click();
    expect(await from('depth')).toBe('Hole B, solved bottom');
    expect(await from('diameter')).toMatch(/diameter of the hole: [A-Z]{2}/);
    await page.getByRole('button', { name: /more quantities/ }).click();
    await page
      .locator('[data-take="meanDensity"] .calc-from', { hasText: /^Hole B, core weighed to/ })
      .waitFor();
    await close();
    expect((await camp.digest(id)).entries).toBe(before);
  });

  it('says how an answer came about, with its variant, and leads to a page of its method', async () => {
    await open();
    await page.locator('[data-choice="closure"]').click();
    await keys.number('6');
    const first = await said(/The hole loses/);
    await page.getByRole('button', { name: 'How this is worked out' }).click();
    expect(await page.locator('.calc-how').textContent()).toMatch(/Nye 1953.*Cuffey & Paterson 2010, table/);
    await page.getByRole('button', { name: /more quantities/ }).click();
    expect(await keys.focused()).toBe('Mean density of all above');
    await page.getByRole('button', { name: 'Paterson & Budd 1982' }).click();
    await page.locator('.calc-how', { hasText: 'Paterson & Budd 1982' }).waitFor();
    expect(await said(/The hole loses/)).not.toBe(first);
    const link = await page.getByRole('link', { name: /^The whole method/ }).getAttribute('href');
    const answer = await fetch(camp.address + link);
    expect(answer.status).toBe(200);
    expect(await answer.text()).not.toContain('id="book"');
    await close();
  });

  it('axe-core finds nothing, in three looks, on the list and on each question with everything open', async () => {
    await open();
    expect(await violationsOn(page)).toEqual([]);
    for (const { key, typed } of asked) {
      await page.locator(`[data-choice="${key}"]`).click();
      await page.locator('.calc-question').waitFor();
      if ((await page.locator('.calc-answer .say').count()) === 0) await keys.number(typed.at(-1)!);
      await page.getByRole('button', { name: 'How this is worked out' }).click();
      await page.getByRole('button', { name: /more quantit/ }).click();
      expect(await violationsOn(page)).toEqual([]);
      await page.getByRole('button', { name: 'Back', exact: true }).click();
    }
    await close();
  });
});
