import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import writeXlsxFile from 'write-excel-file/node';
import { type CampComputer, startCamp } from './camp.ts';
import { goTo, openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

/**
 * Tables of a season at the invented Ceredin Saddle brought in on a tablet, then a version of the depths signed off.
 * The steps build on each other, in this order.
 */

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let page: Page;
let address: string;

/** As a spreadsheet program of a country with decimal commas writes it: semicolons, Latin-1, old line ends. */
const runs = [
  'Bohrung am Ceredin-Sattel, Läufe der Schicht 1;;;',
  'Lauf;Tiefe von (m);Tiefe bis (m);Bemerkung',
  '1;0,00;0,92;',
  '2;0,95;1,80;Kettensäge gehört',
  '3;1,80;2,7O;',
  '4;2,70;3,58;',
]
  .map((line) => `${line}\r\n`)
  .join('');

beforeAll(async () => {
  scratch = makeScratch('import');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'profile'), { width: 1440, height: 900 });
  page = tablet.page;
  await openCampaign(page, camp.address, 'Ceredin Saddle, tables');
  address = page.url().replace(/\/[^/]+$/, '');
  writeFileSync(join(scratch.path, 'runs.csv'), Buffer.from(runs, 'latin1'));
  writeFileSync(join(scratch.path, 'runs-mended.csv'), Buffer.from(runs.replace('2,7O', '2,70'), 'latin1'));
});
afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch.remove();
});

const pick = async (file: string): Promise<void> => {
  await page.locator('.import-pick input').setInputFiles(join(scratch.path, file));
  await page.locator('.import-confirm').waitFor();
};

/** Without the blanks that keep a number and its unit on one line. */
const textOf = async (place: string): Promise<string> =>
  ((await page.locator(place).textContent()) ?? '').replaceAll('\u00a0', ' ');

const isIdle = () => page.locator('.work.import > section[aria-busy="false"]').waitFor();

const take = async (name: RegExp): Promise<void> => {
  await isIdle();
  await page.getByRole('button', { name }).click();
  await page.locator('.import-done').waitFor();
};

const attachments = (): readonly string[] =>
  readdirSync(join(scratch.path, 'data'), { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile() && /^[0-9a-f]{64}$/.test(one.name))
    .map((one) => join(one.parentPath, one.name));

const runNames = async (): Promise<readonly string[]> => {
  await page.goto(`${address}/drill`);
  await page.locator('.runs .run').first().waitFor();
  return page.locator('.runs .run .name').allTextContents();
};

describe('A semicolon and comma table in Latin-1', () => {
  it('is found from the camp, read in its own thread, understood, and asked about: day and clock', async () => {
    await goTo(page, 'Camp');
    await page.getByRole('link', { name: 'Bring in a table' }).click();
    await page.getByRole('heading', { name: 'Bring in a table' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await pick('runs.csv');
    expect(await page.locator('.import-table h3').textContent()).toContain('Table from line 2');
    expect(await page.locator('[data-column="2"]').inputValue()).toBe('run|from');
    expect(await page.locator('[data-column="4"]').inputValue()).toBe('run|note');
    expect(
      await page.locator('[data-ask]').evaluateAll((all) => all.map((one) => one.getAttribute('data-ask'))),
    ).toEqual(['day', 'offset']);
    expect(await page.locator('[data-take]').isDisabled()).toBe(true);
    expect(await violationsOn(page)).toEqual([]);
  });

  it('shows what would be logged, what can not be read by line and column, and what does not close', async () => {
    await page.locator('[data-ask="day"] input').fill('2026-06-14');
    await page.locator('[data-ask="day"] button[type="submit"]').click();
    await page.locator('[data-ask="day"]').waitFor({ state: 'detached' });
    await page.locator('[data-ask="offset"] input').fill('+5:45');
    await page.locator('[data-ask="offset"] button[type="submit"]').click();
    await page.locator('[data-ask]').waitFor({ state: 'detached' });
    expect(await page.locator('.import-counts').textContent()).toBe('Runs: 3 new');
    const unread = await page.locator('.import-list').first().textContent();
    expect(unread).toContain('Line 5, column 3 (Tiefe bis (m))');
    expect(unread).toContain('2,7O');
    expect(await textOf('.import-preview')).toContain(
      'Line 4: gap of 3 cm from 0.920 m to 0.950 m, after line 3.',
    );
    expect(await page.locator('.import-rows li').nth(1).textContent()).toContain('Kettensäge gehört');
    expect(await violationsOn(page)).toEqual([]);
  });

  it('logs the rows on this tablet, keeps the file byte for byte, and both reach the camp computer', async () => {
    await take(/^Log these 3 rows$/);
    expect(await runNames()).toEqual(['B-R004', 'B-R002', 'B-R001']);
    await page.locator('.tick.safe').nth(1).waitFor();
    const bytes = readFileSync(join(scratch.path, 'runs.csv'));
    const sha256 = createHash('sha256').update(bytes).digest('hex');
    await expect.poll(() => attachments().map((path) => path.slice(-64))).toContain(sha256);
    expect(readFileSync(attachments().find((path) => path.endsWith(sha256))!)).toEqual(bytes);
  });

  it('adds nothing when it comes again, knows the layout, and brings in only what was mended', async () => {
    await page.goto(`${address}/import`);
    await pick('runs.csv');
    expect(await page.locator('.import-table').textContent()).toContain('This layout was brought in before');
    expect(await page.locator('[data-ask]').count()).toBe(0);
    await page.getByText('Nothing new in this file').waitFor();
    expect(await page.locator('[data-take]').count()).toBe(0);
    await page.getByRole('button', { name: 'Leave it' }).click();
    await pick('runs-mended.csv');
    await page.locator('[data-ask="day"] input').fill('2026-06-14');
    await page.locator('[data-ask="day"] button[type="submit"]').click();
    await page.locator('[data-ask]').waitFor({ state: 'detached' });
    await take(/^Log this row$/);
    expect(await runNames()).toEqual(['B-R004', 'B-R003', 'B-R002', 'B-R001']);
  });
});

describe('A workbook', () => {
  it('brings in the pieces of a sheet; a column is given another meaning with the keyboard alone', async () => {
    const cells = (...texts: readonly string[]) => texts.map((value) => ({ value }));
    const numbers = (...values: readonly number[]) => values.map((value) => ({ value, type: Number }));
    const bytes = await writeXlsxFile([
      { sheet: 'About', data: [cells('Invented pieces of the Ceredin Saddle')] },
      {
        sheet: 'Core log',
        data: [
          cells('Run', 'Piece', 'Length (cm)', 'Depth measured'),
          numbers(1, 1, 91.2, 0.5),
          numbers(2, 1, 52.5, 0.4),
          numbers(2, 2, 34.8, 0.6),
          numbers(3, 1, 89.5, 0.3),
          numbers(4, 1, 87.4, 0.2),
        ],
      },
    ]).toBuffer();
    writeFileSync(join(scratch.path, 'core.xlsx'), bytes);
    await page.goto(`${address}/import`);
    await pick('core.xlsx');
    expect(await page.locator('.import-table h3').first().textContent()).toContain('Sheet Core log, from A1');
    await page.locator('[data-column="D"]').focus();
    await page.keyboard.type('Mass');
    await isIdle();
    expect(await page.locator('[data-column="D"]').inputValue()).toBe('piece|mass');
    await page.locator('[data-column="D"]').selectOption('');
    await isIdle();
    await page.locator('[data-ask="day"] input').fill('2026-06-15');
    await page.locator('[data-ask="day"] button[type="submit"]').click();
    await page.locator('[data-ask="day"]').waitFor({ state: 'detached' });
    await page.locator('[data-ask="offset"] button').first().click();
    await page.locator('[data-ask]').waitFor({ state: 'detached' });
    expect(await page.locator('.import-counts').textContent()).toContain('Pieces: 5 new');
    await take(/^Log these 5 rows$/);
    expect(await violationsOn(page)).toEqual([]);
  });

  it('can be stopped while it is written: what is written stays, and the same file brings in the rest', async () => {
    const minutes = Array.from({ length: 1500 }, (_, i) => {
      const time = `${String(Math.floor(i / 60)).padStart(2, '0')}:${String(i % 60).padStart(2, '0')}`;
      return `2026-06-${16 + Math.floor(i / 1440)}T${i < 1440 ? time : '00:00'}Z,${-12 - (i % 50) / 10},${3 + (i % 7)}`;
    });
    writeFileSync(
      join(scratch.path, 'weather.csv'),
      `Date and time,Temperature (°C),Wind (m/s)\n${minutes.join('\n')}\n`,
    );
    await page.goto(`${address}/import`);
    await pick('weather.csv');
    await isIdle();
    await page.getByRole('button', { name: 'Log these 1500 rows' }).click();
    await page.locator('progress').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByText('What is written stays.').waitFor();
    const written = Number(/Stopped: (\d+) of/.exec(await textOf('.import-done'))![1]);
    expect(written).toBeGreaterThan(0);
    expect(written).toBeLessThan(1501);
    await pick('weather.csv');
    await isIdle();
    expect(await textOf('.import-counts')).toContain(`${written - 1} in the book already`);
    await page.getByRole('button', { name: 'Leave it' }).click();
  });

  it('a file that is no table is refused in words, and nothing is written', async () => {
    writeFileSync(join(scratch.path, 'picture.xlsx'), Buffer.from('PK\u0003\u0004 no workbook'));
    await page.goto(`${address}/import`);
    await page.locator('.import-pick input').setInputFiles(join(scratch.path, 'picture.xlsx'));
    await page.locator('.refusal').waitFor();
    expect(await page.locator('.refusal').textContent()).toContain('the workbook is damaged');
    expect(await violationsOn(page)).toEqual([]);
  });
});

describe('A version of the depths', () => {
  it('is signed off on the tablet; its file reaches the camp computer under its SHA-256', async () => {
    await page.goto(`${address}/versions`);
    await page.getByRole('button', { name: 'Sign off these depths as a version' }).click();
    await page.getByLabel('Name of the version').fill('v1');
    await page.getByLabel('What it is for, what is open').fill('for the cutting plan');
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: 'Sign off', exact: true }).click();
    await page.locator('.version-list h2').waitFor();
    expect(await page.locator('.version-list').textContent()).toContain('Signed off by HN');
    await expect
      .poll(() =>
        attachments().some((path) => readFileSync(path, 'utf8').includes('firnbook depth version 1')),
      )
      .toBe(true);
  });

  it('says what moved since, and because of which reading', async () => {
    await page.getByRole('button', { name: 'What moved since v1' }).click();
    await page.getByText('Nothing was changed since.').waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save its file: v1' }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/ v1\.json$/);
    await page.goto(`${address}/import`);
    const changed = runs.replace('0,95;1,80', '0,95;1,83').replace('1,80;2,7O', '1,80;2,70');
    writeFileSync(join(scratch.path, 'runs.csv'), Buffer.from(changed, 'latin1'));
    await pick('runs.csv');
    await page.locator('[data-ask="day"] input').fill('2026-06-14');
    await page.locator('[data-ask="day"] button[type="submit"]').click();
    await page.locator('[data-ask]').waitFor({ state: 'detached' });
    await page.getByLabel('Why they are corrected').fill('counter read again');
    await page.getByRole('button', { name: 'Correct them in the book' }).click();
    await take(/^Log this row$/);
    await page.goto(`${address}/versions`);
    await page.getByRole('button', { name: 'What moved since v1' }).click();
    await page.getByText('1 change since:').waitFor();
    expect(await textOf('.since')).toContain('of B-R002 was corrected from 1.80 m to 1.83 m');
    expect(await violationsOn(page)).toEqual([]);
  });

  it('refuses the same name again', async () => {
    await page.getByRole('button', { name: 'Sign off these depths as a version' }).click();
    await page.getByLabel('Name of the version').fill('V1');
    await page.getByRole('button', { name: 'Sign off', exact: true }).click();
    expect(await page.locator('.refusal').textContent()).toContain('This name is taken');
  });
});
