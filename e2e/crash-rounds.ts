import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { startCamp } from './camp.ts';
import { answer, drillRun, openCampaign, pad } from './first-steps.ts';
import { heldOn } from './held-on.ts';
import { openTablet, type Tablet } from './tablet.ts';

export interface Crashes {
  readonly rounds: number;
  /** Runs that the screen had said are kept, and those of them that were not there after a crash. */
  readonly saved: number;
  readonly lost: number;
  /** Keys of half-filled forms before the crashes, and those that were not there after. */
  readonly keys: number;
  readonly keysLost: number;
}

type Tally = { -readonly [Name in keyof Crashes]: number };

/**
 * B3: the tab of a tablet without its camp computer crashes, right after a run was kept and in the middle of the form of
 * the next one, in turn.
 *
 * @param keepsForms false: the control, a browser that keeps nothing of a form
 */
export async function crashTabs(folder: string, rounds: number, keepsForms = true): Promise<Crashes> {
  const total: Tally = { rounds: 0, saved: 0, lost: 0, keys: 0, keysLost: 0 };
  const camp = await startCamp(join(folder, 'data'));
  const tablet = await openTablet(join(folder, 'profile'));
  try {
    await openCampaign(tablet.page, camp.address, 'Ceredin Saddle');
    const campaign = /\/c\/([^/]+)/.exec(tablet.page.url())![1]!;
    await drillRun(tablet.page, { from: '12.30', to: '13.22' });
    total.saved += 1;
    await tablet.page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await tablet.page.waitForFunction(() => navigator.serviceWorker.controller !== null);
    // What is kept from here on is on the tablet and nowhere else.
    await camp.kill();
    if (!keepsForms) {
      await tablet.context.addInitScript(() => {
        Storage.prototype.setItem = () => undefined;
        StorageManager.prototype.getDirectory = () => Promise.reject(new Error('no files'));
      });
      await tablet.page.reload();
      await tablet.page.getByRole('heading', { name: 'Run 2' }).waitFor();
    }
    let page = tablet.page;
    let depth = 13.22;
    for (; total.rounds < rounds; total.rounds += 1) {
      // A form that was lost asks for the depth that it starts from again.
      if (await page.locator('.answer').count()) await answer(page, 'next');
      if (total.rounds % 2 === 0 && keepsForms) {
        depth += 0.83;
        await toDepth(page);
        await pad(page, depth.toFixed(2));
        await keep(page);
        total.saved += 1;
        page = await crash(tablet, page);
        await page.getByRole('heading', { name: `Run ${total.saved + 1}` }).waitFor();
      } else {
        await toDepth(page);
        await pad(page, '98.76'.slice(0, 1 + ((total.rounds >> 1) % 5)));
        const typed = await typedIn(page);
        page = await crash(tablet, page);
        await page.getByRole('heading', { name: `Run ${total.saved + 1}` }).waitFor();
        const left = await typedIn(page);
        total.keys += typed.keys.length;
        if (left.question !== typed.question || left.keys !== typed.keys) total.keysLost += typed.keys.length;
        for (const _ of left.keys) await page.keyboard.press('Backspace');
      }
      const runs = (await heldOn(page, campaign)).filter(({ head }) => head.includes('"run.logged"'));
      total.lost = Math.max(total.lost, total.saved - runs.length);
    }
    return total;
  } finally {
    await tablet.kill();
    await camp.kill();
  }
}

/** From the question where the run starts, which the run before has answered, to the one where it ends. */
async function toDepth(page: Page): Promise<void> {
  await page.locator('.question input.num').waitFor();
  const { question } = await typedIn(page);
  if (question.includes('from')) await page.locator('.question button[type="submit"]').click();
  await page.getByRole('heading', { name: /depth to|where it ended/ }).waitFor();
}

async function keep(page: Page): Promise<void> {
  await page.locator('.question button[type="submit"]').click();
  await answer(page, 'core');
  await page.locator('.answer').waitFor();
}

async function typedIn(page: Page): Promise<{ readonly question: string; readonly keys: string }> {
  const question = (await page.locator('.question h2, .question h1').first().textContent()) ?? '';
  return { question, keys: await page.locator('.question input.num').inputValue() };
}

/** The tab's process ends at once; the person opens the address anew. */
async function crash({ context }: Tablet, page: Page): Promise<Page> {
  const address = page.url();
  const session = await context.newCDPSession(page);
  const gone = page.waitForEvent('crash');
  session.send('Page.crash').catch(() => undefined);
  await gone;
  const again = await context.newPage();
  await again.goto(address);
  await page.close().catch(() => undefined);
  return again;
}
