/**
 * P2: one more reading. A core of 300 runs, one browser at a quarter of its speed, a real server. From the tap that
 * saves a piece to the frame that shows the piece's solved depths, as the page itself sees it: the tap's time stamp,
 * a mutation of the page with the numbers in it, and the frame after it.
 *
 * Limit in the same run: the taps that type the piece's length, which do nothing but draw a digit.
 *
 * The throttle slows the page's main thread alone. The solver's own thread runs at this computer's speed: what it takes
 * for this core at a quarter of the speed is printed beside it.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBook, depthReadings } from '@firnbook/campaign';
import { open } from '@firnbook/journal';
import { solveDepths } from '@firnbook/science/depth';
import { campaignPaths, openSqliteStore } from '@firnbook/storage/sqlite';
import type { Page } from 'playwright-core';
import { loggedCampaign, loggedCore } from './logged-core.ts';
import { buildScreens, openBrowser } from './screens.ts';
import { serve } from './serve.ts';
import { keysWereDrawnIn, type Noted, watchAnswers, whatWasNoted } from './watch-answers.ts';

const runs = 300;
const throttle = 4;
const perRun = 3;
const trips = 14;
const target = 100;

const folder = mkdtempSync(join(tmpdir(), 'firnbook-p2-'));
const web = buildScreens();
const store = openSqliteStore(campaignPaths(folder, loggedCampaign).journal, loggedCampaign);
const { entries, depth } = loggedCore(runs);
await store.append(entries);
await store.close();
const server = await serve(folder, web);
const browser = await openBrowser();
try {
  const page = await browser.newPage({ viewport: { width: 820, height: 1180 } });
  await page.goto(`${server.address}/c/${loggedCampaign}/A/log`);
  await page.getByRole('button', { name: 'HN' }).first().click();
  await page.locator('[data-choice="fits"]').waitFor({ timeout: 60_000 });
  // Everything has come and lies where it stays.
  await page.locator('.tick.safe').nth(1).waitFor({ timeout: 60_000 });
  await page.locator('.core-axis-note').waitFor({ state: 'detached', timeout: 60_000 });
  await page.waitForTimeout(1000);
  // The loader of these scripts names functions by a helper that the page does not have.
  await page.evaluate('globalThis.__name = (named) => named');
  await page.evaluate(watchAnswers);
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: throttle });
  const noted: Noted[] = [];
  for (let trip = 0; trip < trips; trip += 1) {
    for (let piece = 0; piece < perRun; piece += 1) {
      if (piece > 0) await page.locator('[data-choice="next"]').click();
      noted.push(await logPiece(page, `${26 + ((trip + piece) % 5)}.${trip % 10}`));
    }
    if (trip < trips - 1) await drillRun(page, (depth + 0.86 * (trip + 1)).toFixed(2));
  }
  // The first ones warm the page up, as a shift does.
  const warm = noted.slice(5);
  const solved = warm.map((one) => one.solved).sort((a, b) => a - b);
  const answered = warm.map((one) => one.answered).sort((a, b) => a - b);
  const keys = (await page.evaluate(keysWereDrawnIn)).toSorted((a, b) => a - b);
  const p95 = at(solved, 0.95);
  process.stdout.write(
    `${JSON.stringify({
      id: 'P2',
      what: `one more piece in a core of ${runs} runs, tap to new depths on the screen, ${throttle} x slower main thread`,
      p50_ms: at(solved, 0.5),
      p95_ms: p95,
      most_ms: solved.at(-1),
      target_ms: target,
      limit: 'a tap that types a digit, to the frame that shows it',
      limit_ms: at(keys, 0.95),
      ratio: Math.round((p95 / at(keys, 0.95)) * 100) / 100,
      answered_p50_ms: at(answered, 0.5),
      answered_p95_ms: at(answered, 0.95),
      solver_at_a_quarter_ms: Math.round(throttle * solving() * 10) / 10,
      readings: warm.length,
      entries: entries.length,
    })}\n`,
  );
} finally {
  await browser.close();
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}

/** The next run by taps, from the depth that is proposed to this one, and back to the bench. */
async function drillRun(page: Page, to: string): Promise<void> {
  const go = (place: string) => page.getByRole('navigation').getByRole('link', { name: place }).click();
  await go('Drill');
  const take = page.locator('.question button[type="submit"]');
  // The cautions stand before the first form of a shift.
  const seen = page.getByRole('button', { name: 'Read; to the form' });
  await take.or(seen).first().waitFor();
  if (await seen.isVisible()) await seen.click();
  await take.click();
  await press(page, to);
  await take.click();
  await page.locator('[data-choice="core"]').click();
  await page.locator('.answer').waitFor();
  await go('Log');
}

/** Digits on the pad. */
async function press(page: Page, number: string): Promise<void> {
  for (const key of number) {
    const name = /\d/.test(key) ? key : 'Decimal sign';
    await page.locator('.pad').getByRole('button', { name, exact: true }).click();
  }
}

/** One piece by taps on the pad, up to its answer with depths. */
async function logPiece(page: Page, centimetres: string): Promise<Noted> {
  await page.locator('[data-choice="fits"]').click();
  await press(page, centimetres);
  await page.evaluate('noted = null');
  await page.locator('.question button[type="submit"]').click();
  const handle = await page.waitForFunction(whatWasNoted, null, { timeout: 30_000, polling: 50 });
  const noted = (await handle.jsonValue()) as Noted;
  return noted;
}

/** Median time of one solution of this core, ms. */
function solving(): number {
  const book = createBook();
  book.add(
    entries.map((sealed) => {
      const opened = open(sealed);
      if (!opened.ok) throw new Error(opened.problem);
      return opened.entry;
    }),
  );
  const view = book.view();
  const given = depthReadings(view.holes[0]!, view);
  const times = Array.from({ length: 9 }, () => {
    const start = performance.now();
    solveDepths(given);
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[4]!;
}

function at(sorted: readonly number[], share: number): number {
  return Math.round(sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]! * 10) / 10;
}
