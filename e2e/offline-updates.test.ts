import { createReadStream, existsSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { answer, drillRun, openCampaign, pad } from './first-steps.ts';
import { makeScratch, type Scratch, webFolder } from './folders.ts';
import { nextVersion } from './next-version.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** A part of the screens that is loaded when it is asked for, and that the next release no longer has. */
const latePart = 'record-dialog';

let scratch: Scratch;
let camp: CampComputer;
let tablet: Tablet;
let next: string;
let round = 0;

beforeAll(() => {
  scratch = makeScratch('updates');
  next = nextVersion(webFolder, join(scratch.path, 'web-next'), 'next', latePart);
});
afterAll(() => scratch.remove());
beforeEach(async () => {
  round += 1;
  camp = await startCamp(join(scratch.path, `data-${round}`));
  tablet = await openTablet(join(scratch.path, `profile-${round}`));
});
afterEach(async () => {
  await tablet.kill();
  await camp.kill();
});

const isAtCamp = (page: Page) =>
  page.locator('.ticks').getByText('on the camp computer').waitFor({ timeout: 15_000 });
const take = (page: Page) => page.getByRole('button', { name: 'Change to it now' });
const version = (page: Page) =>
  page.evaluate(() => document.querySelector('meta[name="version"]')?.getAttribute('content') ?? 'first');
const lookForUpdate = (page: Page) =>
  page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));

async function change(page: Page): Promise<void> {
  await take(page).waitFor();
  await Promise.all([page.waitForEvent('load'), take(page).click()]);
}

/** A campaign on the camp computer, the screens kept for offline, and the depth of a run half typed: "13.2". */
async function halfFilled(page: Page): Promise<void> {
  await openCampaign(page, camp.address, 'Ceredin Saddle');
  await drillRun(page, { from: '12.30', to: '12.90' });
  await isAtCamp(page);
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await answer(page, 'next');
  await page.locator('.question button[type="submit"]').click();
  await pad(page, '13.2');
}

/** Goes on with the form as it was left and keeps it. */
async function finish(page: Page): Promise<void> {
  await page.getByRole('heading', { name: 'Run 2' }).waitFor();
  await pad(page, '2');
  await page.locator('.question button[type="submit"]').click();
  await answer(page, 'core');
  await page.locator('.answer').waitFor();
  await page.getByText('13.22').first().waitFor();
}

describe('B6: updates of the screens', () => {
  it('a half-filled form outlives the new version; the page before it still gets its own parts', async () => {
    const { page, context } = tablet;
    await halfFilled(page);
    await camp.kill();
    await camp.restart(next);
    await lookForUpdate(page);
    await take(page).waitFor();
    expect(await version(page)).toBe('first');

    // Another tab takes the new version. This one stays as it is, and the server no longer has its parts.
    const other = await context.newPage();
    await other.goto(page.url());
    expect(await version(other)).toBe('first');
    await change(other);
    await other.getByRole('heading', { name: 'Run 2' }).waitFor();
    expect(await version(other)).toBe('next');
    expect(await version(page)).toBe('first');
    await page.locator('.ticks').click();
    await page.getByRole('dialog').getByText('keeps the record under the address').waitFor();
    await page.keyboard.press('Escape');
    await page.reload();
    expect(await version(page)).toBe('next');
    await finish(page);
    await isAtCamp(page);
  });

  it('waits while anything is unsent, on whatever page a person looks', async () => {
    const { page } = tablet;
    await halfFilled(page);
    await camp.kill();
    await camp.restart(next);
    await tablet.context.route('**/exchange', (route) => route.abort());
    await finish(page);
    await lookForUpdate(page);
    await page.getByText('the new version waits for that').waitFor();
    expect(await take(page).count()).toBe(0);
    // The list of campaigns has no book open, and still knows.
    await page.goto(camp.address);
    await page.getByText('the new version waits for that').waitFor();
    expect(await take(page).count()).toBe(0);
    await tablet.context.unroute('**/exchange');
    await page.getByRole('link', { name: 'Ceredin Saddle' }).click();
    await isAtCamp(page);
    await change(page);
    await page.getByText('13.22').first().waitFor();
    expect(await version(page)).toBe('next');
  });

  it('offline, the version that runs goes on, and the one that waits can be taken; no form is lost', async () => {
    const { page } = tablet;
    await halfFilled(page);
    await camp.kill();
    await camp.restart(next);
    await lookForUpdate(page);
    await take(page).waitFor();
    await camp.kill();
    await page.reload();
    await page.getByRole('heading', { name: 'Run 2' }).waitFor();
    expect(await version(page)).toBe('first');
    await change(page);
    await page.getByRole('heading', { name: 'Run 2' }).waitFor();
    expect(await version(page)).toBe('next');
    await finish(page);
  });

  it('a server that went back to the version before is followed back, and forth again', async () => {
    const { page } = tablet;
    await halfFilled(page);
    const run: string[] = ['first'];
    const third = nextVersion(webFolder, join(scratch.path, 'web-third'), 'third');
    for (const screens of [next, webFolder, third]) {
      await camp.kill();
      await camp.restart(screens);
      await lookForUpdate(page);
      await change(page);
      await page.getByRole('heading', { name: 'Run 2' }).waitFor();
      run.push(await version(page));
    }
    expect(run).toEqual(['first', 'next', 'first', 'third']);
    // The one that ran before the third is the first: its page can still load the rest of itself.
    const kept = await page.evaluate(async () => {
      const names = await caches.keys();
      const late = await Promise.all(
        names.map(async (name) =>
          (await (await caches.open(name)).keys()).some((one) => one.url.includes('/assets/record-dialog-')),
        ),
      );
      return names.map((name, index) => `${name === 'firnbook-next' ? 'next' : 'kept'} ${late[index]}`);
    });
    expect(kept.sort()).toEqual(['kept true', 'kept true']);
    await finish(page);
  });

  it('a worker that sits in a cache on the way is looked for on the server; control: with the usual rule it is not', async () => {
    let folder = webFolder;
    const types: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript' };
    const server = createServer((request, response) => {
      const asked = new URL(request.url ?? '/', 'http://x').pathname;
      const path = join(folder, existsSync(join(folder, asked)) && asked !== '/' ? asked : 'index.html');
      response.writeHead(200, {
        'content-type': types[extname(path)] ?? 'application/octet-stream',
        'cache-control': asked === '/sw.js' ? 'max-age=86400' : 'no-cache',
      });
      createReadStream(path).pipe(response);
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    try {
      const bound = server.address();
      if (bound === null || typeof bound === 'string') throw new Error('The server has no port.');
      const { page } = tablet;
      await page.goto(`http://127.0.0.1:${bound.port}/`);
      await page.evaluate(async () => {
        await navigator.serviceWorker.ready;
        // The rule that browsers have by themselves for what a worker imports, and had for the worker.
        const usual = await navigator.serviceWorker.register('/sw.js', {
          scope: '/usual/',
          updateViaCache: 'all',
        });
        // What was never looked for, or not for a day, is looked for on the server by every rule.
        while (usual.active === null) await new Promise((resolve) => setTimeout(resolve, 100));
        await usual.update();
      });
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
      folder = next;
      const found = await page.evaluate(async () => {
        const look = async (scope: string) => {
          const registration = (await navigator.serviceWorker.getRegistration(scope))!;
          await registration.update();
          return registration.installing !== null || registration.waiting !== null;
        };
        // In this order: what ours fetches anew lies in that cache afterwards.
        const usual = await look('/usual/x');
        return { ours: await look('/'), usual };
      });
      expect(found).toEqual({ ours: true, usual: false });
    } finally {
      server.closeAllConnections();
      server.close();
    }
  });
});
