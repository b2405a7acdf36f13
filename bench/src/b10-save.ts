/**
 * B10: a saved entry. A core of 60 runs, one browser at a quarter of its speed, a real server. From the tap that keeps a
 * run to the frame that shows its tick "on this tablet", as the page itself sees it. The tick stands for a song of the
 * canary, a strict commit, its reading back, and the flushed second copy.
 *
 * Limit in the same run: one strict commit of one row, bare, in the same page.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { campaignPaths, openSqliteStore } from '@firnbook/storage/sqlite';
import type { Page } from 'playwright-core';
import { loggedCampaign, loggedCore } from './logged-core.ts';
import { buildScreens, openBrowser } from './screens.ts';
import { serve } from './serve.ts';
import { bareCommits, watchTicks, whatTicked } from './watch-ticks.ts';

const runs = 60;
const throttle = 4;
const saves = 45;
/** The first ones warm the page up, as a shift does. */
const warmUp = 5;
const target = 100;

const folder = mkdtempSync(join(tmpdir(), 'firnbook-b10-'));
const web = buildScreens();
const store = openSqliteStore(campaignPaths(folder, loggedCampaign).journal, loggedCampaign);
const { entries, depth } = loggedCore(runs);
await store.append(entries);
await store.close();
const server = await serve(folder, web);
const browser = await openBrowser();
try {
  const page = await browser.newPage({ viewport: { width: 820, height: 1180 } });
  await page.goto(`${server.address}/c/${loggedCampaign}/A/drill`);
  await page.getByRole('button', { name: 'HN' }).first().click();
  await page.getByRole('button', { name: 'Read; to the form' }).click();
  await page.locator('.tick.safe').nth(1).waitFor({ timeout: 60_000 });
  // Everything has come, the ballast too.
  await page.waitForTimeout(5_000);
  // The loader of these scripts names functions by a helper that the page does not have.
  await page.evaluate('globalThis.__name = (named) => named');
  await page.evaluate(watchTicks);
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: throttle });
  const times: number[] = [];
  for (let save = 1; save <= saves; save += 1) times.push(await drillRun(page, (depth + save).toFixed(2)));
  const bare = (await page.evaluate(bareCommits, 100)).toSorted((a, b) => a - b);
  const warm = times.slice(warmUp).sort((a, b) => a - b);
  process.stdout.write(
    `${JSON.stringify({
      id: 'B10',
      what: `a run kept, tap to tick on this tablet, ${throttle} x slower main thread`,
      p50_ms: at(warm, 0.5),
      p95_ms: at(warm, 0.95),
      most_ms: at(warm, 1),
      target_ms: target,
      limit: 'a bare strict IndexedDB commit of one row in the same page',
      limit_p50_ms: at(bare, 0.5),
      limit_ms: at(bare, 0.95),
      ratio: Math.round((at(warm, 0.95) / at(bare, 0.95)) * 100) / 100,
      saves: warm.length,
    })}\n`,
  );
} finally {
  await browser.close();
  await server.stop();
  rmSync(folder, { recursive: true, force: true });
}

/** The next run, from the depth that is proposed to this one; milliseconds from the last tap to the tick. */
async function drillRun(page: Page, to: string): Promise<number> {
  const take = page.locator('.question button[type="submit"]');
  await take.click();
  for (const key of to) {
    const name = /\d/.test(key) ? key : 'Decimal sign';
    await page.locator('.pad').getByRole('button', { name, exact: true }).click();
  }
  await take.click();
  await page.evaluate('ticked = null');
  await page.locator('[data-choice="core"]').click();
  const handle = await page.waitForFunction(whatTicked, null, { timeout: 30_000, polling: 50 });
  const ticked = (await handle.jsonValue()) as number;
  await page.locator('[data-choice="next"]').click();
  return ticked;
}

function at(sorted: readonly number[], share: number): number {
  return Math.round(sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]! * 10) / 10;
}
