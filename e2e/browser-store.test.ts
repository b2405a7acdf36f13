import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeScratch, pagesFolder, type Scratch } from './folders.ts';
import { type KillPlan, killTablet } from './kill-rounds.ts';
import { type PagesServer, servePages } from './pages-server.ts';
import { visitStore } from './store-page.ts';
import { openTablet } from './tablet.ts';
import { writeInTwoTabs } from './two-tabs.ts';

let server: PagesServer;
let scratch: Scratch;

beforeAll(async () => {
  server = await servePages(pagesFolder);
  scratch = makeScratch('store');
});
afterAll(() => {
  server.close();
  scratch.remove();
});

const visit = (page: Page): Promise<Page> => visitStore(page, server.address);
const killed = (plan: Pick<KillPlan, 'name' | 'kills'> & Partial<KillPlan>) =>
  killTablet(server.address, { folder: scratch.path, copies: 2, tears: false, ...plan });

describe('Browser store in Chromium', () => {
  it('passes every case of the conformance suite', async () => {
    const tablet = await openTablet(join(scratch.path, 'conformance'));
    try {
      const page = await visit(tablet.page);
      const titles = await page.evaluate(() => storePage.titles);
      expect(titles.length).toBeGreaterThan(5);
      const problems: Record<string, string> = {};
      for (const title of titles) {
        // A new page has none of the last case's connections open.
        await visit(page);
        const problem = await page.evaluate((name) => storePage.conformance(name), title);
        if (problem !== null) problems[title] = problem;
      }
      expect(problems).toEqual({});
    } finally {
      await tablet.close();
    }
  });

  it('J4: ten kills in the middle of writing lose no acknowledged entry', async () => {
    const { acknowledged, lost, last } = await killed({ name: 'ceredin-kills', kills: 10 });
    expect(acknowledged).toBeGreaterThan(100);
    expect(lost).toBe(0);
    const { damaged, forks, orphans } = last;
    expect({ damaged, forks, orphans }).toEqual({ damaged: 0, forks: 0, orphans: 0 });
    // Unacknowledged and there is allowed: at most the one under way at each kill, and the one behind it.
    expect(last.ids.length - acknowledged).toBeLessThanOrEqual(10 * 2);
  });

  it('J4: six brand-new tablets, killed in the middle of a record, lose no acknowledged entry', async () => {
    for (let one = 0; one < 6; one += 1) {
      const { acknowledged, lost, putBack, last } = await killed({
        name: `new-${one}`,
        kills: 4,
        tears: true,
      });
      expect(acknowledged).toBeGreaterThanOrEqual(20);
      expect(lost).toBe(0);
      // The browser did drop its database, twice; else the kills were none that this is about.
      expect(putBack).toBeGreaterThan(10);
      const { damaged, forks, orphans } = last;
      expect({ damaged, forks, orphans }).toEqual({ damaged: 0, forks: 0, orphans: 0 });
      expect(new Set(last.places).size).toBe(last.places.length);
    }
  });

  it('J4: where a new log is begun at each start, such kills make the browser drop nothing', async () => {
    const plan = { name: 'renewed', kills: 6, tears: true, copies: undefined };
    const { acknowledged, lost, putBack } = await killed(plan);
    expect(acknowledged).toBeGreaterThanOrEqual(30);
    expect(lost).toBe(0);
    // What stood in the torn record itself, and not a whole database.
    expect(putBack).toBeLessThanOrEqual(6);
  });

  it('control: with the database alone the same kills take everything', async () => {
    const { acknowledged, lost, last } = await killed({ name: 'alone', kills: 4, tears: true, copies: 1 });
    expect(lost).toBeGreaterThan(10);
    expect(last.ids.length).toBeLessThan(acknowledged / 2);
  });

  it('a file that was kept comes back where the browser dropped its database', async () => {
    const profile = join(scratch.path, 'files');
    const invented = 'an invented picture';
    const before = await openTablet(profile);
    await (await visit(before.page)).evaluate((text) => storePage.keepFile('ceredin', text), invented);
    await before.kill();
    rmSync(join(profile, 'Default/IndexedDB'), { recursive: true });
    const after = await openTablet(profile);
    try {
      const page = await visit(after.page);
      expect(await page.evaluate(() => storePage.unsentFiles('ceredin'))).toEqual([invented]);
    } finally {
      await after.close();
    }
  });

  it('B7, I5: two tabs writing at once use every sequence number once; control: without turns they do not', async () => {
    const right = await writeInTwoTabs(server.address, scratch.path, 60);
    expect(right).toEqual({ entries: 121, doubled: 0, skipped: 0, forks: 0 });
    const wrong = await writeInTwoTabs(server.address, scratch.path, 60, false);
    expect(wrong.doubled + wrong.forks).toBeGreaterThan(0);
  });
});
