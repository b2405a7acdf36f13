import { execFileSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createMemoryDisk, createMemoryStore, openReplica, readReply } from '@firnbook/journal';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { answer, drillRun, goTo, logPiece, openCampaign } from './first-steps.ts';
import { makeScratch, root, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';

/**
 * The whole of the first work, as a crew lives it: a new campaign, two runs and five pieces, the camp computer
 * killed, a third run and a reload without it, both sides the same bytes; a corrected length moves what lies
 * below; the command line gives the same depths; two tablets log "run 3" and a person settles it.
 * The steps build on each other, in this order.
 */

let camp: CampComputer;
let scratch: Scratch;
let first: Tablet;
let second: Tablet;
let campaign: string;

const pieces = [
  { run: 1, topBreak: 'fits', length: '52.5' },
  { run: 1, topBreak: 'fits', length: '37.1' },
  { run: 2, topBreak: 'unsure', length: '28.4' },
  { run: 2, topBreak: 'loss', loss: '2.5', length: '31.9' },
  { run: 2, topBreak: 'fits', length: '24.2' },
] as const;

beforeAll(async () => {
  scratch = makeScratch('story');
  camp = await startCamp(join(scratch.path, 'data'));
  first = await openTablet(join(scratch.path, 'first'));
  second = await openTablet(join(scratch.path, 'second'));
});

afterAll(async () => {
  await first?.close();
  await second?.close();
  await camp?.kill();
  scratch?.remove();
});

/** Every entry as this tablet's database holds it: head and body by hash. */
function heldBy(page: Page): Promise<Record<string, string>> {
  return page.evaluate(async (name) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open(name);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const rows = await new Promise<{ hash: string; head: string; body: string }[]>((resolve, reject) => {
      const request = db.transaction('entries').objectStore('entries').getAll();
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    db.close();
    return Object.fromEntries(rows.map(({ hash, head, body }) => [hash, head + body]));
  }, `firnbook-${campaign}`);
}

/** The same from the camp computer, asked by a device that holds nothing and writes nothing. */
async function heldByCamp(): Promise<Record<string, string>> {
  const store = createMemoryStore(campaign, createMemoryDisk('reader'));
  const reader = await openReplica(store, { now: Date.now, randomBytes: (count) => randomBytes(count) });
  let again = true;
  while (again) {
    const answered = await fetch(`${camp.address}/api/campaigns/${campaign}/exchange`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(reader.ask('camp')),
    });
    const reply = readReply(await answered.json());
    if (!reply.ok) throw new Error(reply.problem);
    ({ again } = await reader.hear('camp', reply.value));
  }
  const entries = reader.ledger.entries();
  return Object.fromEntries(entries.map(({ sealed }) => [sealed.hash, `${sealed.head}${sealed.body}`]));
}

/** Solved tops and bottoms by piece, as the core axis tells a screen reader. */
async function solved(page: Page): Promise<Record<string, { top: number; bottom: number; sd: number }>> {
  await goTo(page, 'Core');
  await page.locator('tr[data-piece]').first().waitFor({ state: 'attached' });
  const rows = await page.locator('tr[data-piece]').evaluateAll((all) =>
    all.map((row) => ({
      name: row.querySelector('th,td')?.textContent ?? '',
      top: Number(row.querySelector<HTMLElement>('[data-top]')?.dataset.top),
      bottom: Number(row.querySelector<HTMLElement>('[data-bottom]')?.dataset.bottom),
      sd: Number(row.querySelector<HTMLElement>('[data-bottom]')?.dataset.sd),
    })),
  );
  return Object.fromEntries(rows.map(({ name, ...depths }) => [/B-P[\d.]+/.exec(name)?.[0] ?? name, depths]));
}

const newestRun = (page: Page) => page.locator('.runs .run').first();

const onCamp = (page: Page) => page.locator('.ticks .tick').nth(1).and(page.locator('.safe')).waitFor();

async function bothHoldTheSameBytes(page: Page, count: number): Promise<void> {
  await expect
    .poll(async () => Object.keys(await heldBy(page)).length, { timeout: 30_000 })
    .toBeGreaterThanOrEqual(count);
  await expect.poll(async () => await heldByCamp(), { timeout: 30_000 }).toEqual(await heldBy(page));
}

/** Nothing more to say between the camp computer and the tablets. */
async function inSync(): Promise<void> {
  await expect
    .poll(
      async () => {
        const held = [await heldByCamp(), await heldBy(first.page), await heldBy(second.page)].map((all) =>
          JSON.stringify(Object.entries(all).sort()),
        );
        return new Set(held).size;
      },
      { timeout: 60_000, interval: 500 },
    )
    .toBe(1);
  await onCamp(first.page);
  await onCamp(second.page);
}

describe('The first work', () => {
  it('opens a campaign with a hole and a zero, and logs two runs and five pieces', async () => {
    const { page } = first;
    await openCampaign(page, camp.address, 'Ceredin Saddle, story');
    campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
    await drillRun(page, { from: '0', to: '0.92' });
    await answer(page, 'next');
    await drillRun(page, { to: '1.81' });
    await answer(page, 'next');
    await goTo(page, 'Log');
    // Log opens at the newest run without pieces; the first run is one step up.
    await page.getByRole('button', { name: 'Previous run' }).first().click();
    for (const [index, piece] of pieces.entries()) {
      if (index === 2) await page.getByRole('button', { name: 'Next run' }).first().click();
      await logPiece(page, piece);
      await page.locator('.answer [data-rest="tablet"], .answer [data-rest="camp"]').waitFor();
      await answer(page, index === 1 || index === 4 ? 'done' : 'next');
    }
    await onCamp(page);
    await bothHoldTheSameBytes(page, 10);
  });

  it('I1: with the camp computer killed, a third run is kept on the tablet, over a reload too', async () => {
    const { page } = first;
    // The second tablet has fetched the campaign before the power fails.
    await second.page.goto(`${camp.address}/c/${campaign}`);
    await second.page.getByRole('button', { name: 'HN' }).click();
    await second.page.getByRole('button', { name: 'Read; to the form' }).click();
    await second.page.getByRole('heading', { name: 'Run 3: depth from' }).waitFor();
    await camp.kill('SIGKILL');
    await goTo(page, 'Drill');
    await drillRun(page, { to: '2.70' });
    await page.locator('.answer [data-rest="tablet"]').waitFor();
    await page.reload();
    await newestRun(page).getByText('B-R003').waitFor();
    expect(await newestRun(page).locator('[data-rest]').getAttribute('data-rest')).toBe('tablet');
  });

  it('a second tablet, cut off too, logs its own run 3', async () => {
    await drillRun(second.page, { to: '2.65' });
    await second.page.locator('.answer [data-rest="tablet"]').waitFor();
  });

  it('I3: started again, the camp computer and both tablets hold the same bytes and say so', async () => {
    await camp.restart();
    await newestRun(first.page).locator('[data-rest="camp"]').waitFor({ timeout: 60_000 });
    await inSync();
  });

  it('J3: both runs 3 are shown as a conflict; a person joins them', async () => {
    const { page } = first;
    for (const tablet of [first, second]) {
      await tablet.page
        .locator('[data-conflict="same name"]', { hasText: 'B-R003' })
        .waitFor({ timeout: 60_000 });
    }
    await expect.poll(() => page.locator('.runs .run', { hasText: 'B-R003' }).count()).toBe(2);
    await page.locator('[data-conflict="same name"] button').click();
    await page.getByRole('button', { name: '2.70' }).click();
    await page.locator('[data-settle="join"]').click();
    await page.locator('[data-conflict]').waitFor({ state: 'detached' });
    await inSync();
    await second.page.locator('[data-conflict]').waitFor({ state: 'detached', timeout: 60_000 });
    await newestRun(page).filter({ hasText: '2.70' }).waitFor();
  });

  it('J3: one length is corrected with a reason; every depth below moves, the old reading stays visible', async () => {
    const { page } = first;
    const before = await solved(page);
    await goTo(page, 'Log');
    await page.getByRole('button', { name: 'Previous run' }).first().click();
    await page.getByRole('button', { name: 'Previous run' }).first().click();
    await page.getByRole('button', { name: 'Correct B-P001.1' }).first().click();
    await answer(page, 'length');
    await page.keyboard.type('54.5');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Measured again' }).click();
    await page.locator('s', { hasText: '52.5' }).first().waitFor();
    await expect
      .poll(async () => (await solved(page))['B-P001.1']!.bottom, { timeout: 20_000 })
      .not.toBe(before['B-P001.1']!.bottom);
    const after = await solved(page);
    expect(Object.keys(after)).toHaveLength(5);
    for (const name of Object.keys(before)) {
      expect(after[name]!.bottom, name).toBeGreaterThan(before[name]!.bottom);
      expect(after[name]!.sd).toBeGreaterThan(0);
    }
  });

  it('npx firnbook depths gives the same numbers for the same readings', async () => {
    const onScreen = await solved(first.page);
    const folder = join(scratch.path, 'csv');
    mkdirSync(folder);
    const runs = ['run,depth_from_m,depth_to_m', '1,0,0.92', '2,0.92,1.81', '3,1.81,2.70'];
    const rows = pieces.map((piece, index) => {
      const number = index < 2 ? index + 1 : index - 1;
      const length = index === 0 ? '54.5' : piece.length;
      return `${piece.run},${number},${length},${piece.topBreak},${'loss' in piece ? piece.loss : ''}`;
    });
    writeFileSync(join(folder, 'runs.csv'), `${runs.join('\n')}\n`);
    writeFileSync(join(folder, 'pieces.csv'), `run,piece,length_cm,top_break,loss_cm\n${rows.join('\n')}\n`);
    execFileSync(process.execPath, [
      join(root, 'apps/cli/bin/firnbook.js'),
      ...[
        'depths',
        '--runs',
        join(folder, 'runs.csv'),
        '--pieces',
        join(folder, 'pieces.csv'),
        '--out',
        folder,
      ],
    ]);
    const [header, ...lines] = readFileSync(join(folder, 'depths.csv'), 'utf8').trim().split(/\r?\n/);
    expect(header).toBe(
      'run,piece,top_m,top_sd_m,top_min_m,top_max_m,bottom_m,bottom_sd_m,bottom_min_m,bottom_max_m',
    );
    expect(lines).toHaveLength(5);
    for (const line of lines) {
      const [run, piece, top, , , , bottom] = line.split(',');
      const shown = onScreen[`B-P00${run}.${piece}`]!;
      expect(Number(top)).toBeCloseTo(shown.top, 4);
      expect(Number(bottom)).toBeCloseTo(shown.bottom, 4);
    }
  });

  it('J3: two runs 4 from two tablets; a person renumbers one, and its old name stays', async () => {
    await camp.kill('SIGKILL');
    for (const [tablet, to] of [
      [first, '3.60'],
      [second, '4.45'],
    ] as const) {
      await tablet.page.reload();
      await goTo(tablet.page, 'Drill');
      await tablet.page.getByRole('heading', { name: 'Run 4: depth from' }).waitFor();
      if (tablet === second) await drillRun(tablet.page, { from: '3.60', to });
      else await drillRun(tablet.page, { to });
    }
    await camp.restart();
    await inSync();
    const { page } = second;
    await page.locator('[data-conflict="same name"] button').click({ timeout: 60_000 });
    const second4 = await page
      .locator('.compare tr', { hasText: 'Depth to' })
      .locator('td')
      .nth(1)
      .textContent();
    const which = second4?.includes('4.45') ? 'renumber-second' : 'renumber-first';
    await page.locator(`[data-settle="${which}"]`).click();
    await page.locator('[data-conflict]').waitFor({ state: 'detached' });
    const renumbered = page.locator('.runs .run', { hasText: 'B-R005' });
    await renumbered.filter({ hasText: 'B-R004' }).filter({ hasText: '4.45' }).waitFor();
    await inSync();
  });

  it('the drawing of the core is saved as SVG with every piece that was logged', async () => {
    const { page } = first;
    await goTo(page, 'Core');
    const download = page.waitForEvent('download');
    await page
      .getByRole('button', { name: /SVG/ })
      .or(page.getByRole('link', { name: /SVG/ }))
      .click();
    expect((await download).suggestedFilename()).toMatch(/\.svg$/);
  });
});
