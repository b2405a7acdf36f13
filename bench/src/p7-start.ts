/**
 * P7: the camp computer's server starts on a whole season of 150,000 entries, in a process of its own: from the call
 * to the first answered list of campaigns, every row read, hashed and opened; and to the first page of the screens,
 * which is served meanwhile. Limit in the same run: reading the same rows from SQLite, SHA-256 over head and body,
 * JSON.parse of both. Beside it: an empty folder filled with the demo; the demo in a new browser, from the address to
 * the first form that can be answered; and what that form weighs.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DEMO_CAMPAIGN, demoEntries } from '@firnbook/demo';
import { openReplica } from '@firnbook/journal';
import { campaignPaths, openSqliteStore } from '@firnbook/storage/sqlite';
import Database from 'better-sqlite3';
import { builtSize } from './built-size.ts';
import { buildScreens, openBrowser } from './screens.ts';
import { season, seasonCampaign } from './season.ts';
import { serve } from './serve.ts';

const count = 150_000;
const rounds = 5;
const startTarget = 2000;
const fillTarget = 5000;
const formTarget = 250;

const folder = mkdtempSync(join(tmpdir(), 'firnbook-p7-'));
const web = buildScreens();
try {
  await start(join(folder, 'season'));
  await demo(join(folder, 'demo'));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function start(data: string): Promise<void> {
  const { journal } = campaignPaths(data, seasonCampaign);
  const store = openSqliteStore(journal, seasonCampaign);
  const rows = season(count);
  for (let from = 0; from < rows.length; from += 5000) await store.append(rows.slice(from, from + 5000));
  await store.close();
  const starts: number[] = [];
  const works: number[] = [];
  const pages: number[] = [];
  const limits: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    limits.push(readBare(journal));
    const server = await serve(data, web);
    starts.push(server.ms);
    works.push(server.cpuMs);
    pages.push(server.pageMs);
    await server.stop();
  }
  const [ms, limit] = [median(starts), median(limits)];
  print({
    what: `the server over ${count} entries, from its call to its first answer`,
    ms,
    target_ms: startTarget,
    processor_ms: median(works),
    first_page_ms: median(pages),
    limit: 'the same rows read from SQLite, hashed and parsed, nothing kept',
    limit_ms: limit,
    ratio: Math.round((ms / limit) * 100) / 100,
    rounds,
  });
}

/** The least that a start which trusts nothing has to do. */
function readBare(file: string): number {
  const begin = performance.now();
  const db = new Database(file, { readonly: true });
  const rows = db.prepare('SELECT head, body FROM entries ORDER BY position');
  for (const row of rows.iterate()) {
    const { head, body } = row as { head: string; body: string };
    for (const text of [head, body]) {
      createHash('sha256').update(text).digest('hex');
      JSON.parse(text);
    }
  }
  db.close();
  return performance.now() - begin;
}

async function demo(data: string): Promise<void> {
  const begin = performance.now();
  const entries = demoEntries();
  const made = performance.now() - begin;
  const store = openSqliteStore(campaignPaths(data, DEMO_CAMPAIGN).journal, DEMO_CAMPAIGN);
  const source = {
    now: Date.now,
    randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
  };
  const { refused } = await (await openReplica(store, source)).take(entries);
  if (refused.length > 0) throw new Error(refused[0]!.problem);
  await store.close();
  const filled = performance.now() - begin;
  print({
    what: `an empty folder filled with the demo's ${entries.length} entries`,
    ms: filled,
    making_them_ms: made,
    limit: 'target',
    limit_ms: fillTarget,
    ratio: Math.round((filled / fillTarget) * 100) / 100,
    rounds: 1,
  });

  const server = await serve(data, web);
  const browser = await openBrowser();
  const times: number[] = [];
  try {
    for (let round = 0; round < rounds; round += 1) {
      const context = await browser.newContext({ viewport: { width: 820, height: 1180 } });
      const page = await context.newPage();
      const asked = performance.now();
      await page.goto(`${server.address}/c/${DEMO_CAMPAIGN}/B/log`);
      // Everything of the season is on the tablet, and the book asks who writes in it.
      await page.getByRole('button', { name: 'HN' }).first().waitFor({ timeout: 120_000 });
      times.push(performance.now() - asked);
      await context.close();
    }
  } finally {
    await browser.close();
    await server.stop();
  }
  print({
    what: 'the demo in a new browser, from the address to the first question that can be answered',
    ms: median(times),
    limit: 'target',
    limit_ms: startTarget,
    ratio: Math.round((median(times) / startTarget) * 100) / 100,
    rounds,
  });
  const { code, styles, fonts, solver } = builtSize(web);
  const kilobytes = (bytes: number): number => Math.round(bytes / 100) / 10;
  print({
    what: 'what a field form loads before it shows, gzip',
    kB: kilobytes(code + styles),
    limit: 'target',
    limit_kB: formTarget,
    ratio: Math.round(((code + styles) / 1000 / formTarget) * 100) / 100,
    fonts_kB: kilobytes(fonts),
    solver_kB: kilobytes(solver),
  });
}

function print(figure: Readonly<Record<string, unknown>>): void {
  const rounded = Object.entries(figure).map(([name, value]) => [
    name,
    typeof value === 'number' && name.endsWith('ms') ? Math.round(value) : value,
  ]);
  process.stdout.write(`${JSON.stringify({ id: 'P7', ...Object.fromEntries(rounded) })}\n`);
}

function median(times: readonly number[]): number {
  return times.toSorted((a, b) => a - b)[times.length >> 1]!;
}
