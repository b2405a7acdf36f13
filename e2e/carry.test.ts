import { createHash, randomBytes } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { connect, createServer, type Server } from 'node:net';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { answer, drillRun, openCampaign } from './first-steps.ts';
import { makeScratch, root, type Scratch } from './folders.ts';
import { keysOn } from './keys.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

/** Two tablets of a camp whose computer is gone, and a stick between them. The steps build on each other. */

const phone = { width: 390, height: 844 };

let scratch: Scratch;
let camp: CampComputer;
let one: Tablet;
let other: Tablet;
let files = 0;

beforeAll(async () => {
  scratch = makeScratch('carry');
  camp = await startCamp(join(scratch.path, 'data'));
  one = await openTablet(join(scratch.path, 'profile-one'), phone);
  other = await openTablet(join(scratch.path, 'profile-other'), phone);
  for (const { page } of [one, other]) {
    page.setDefaultTimeout(15_000);
    await page.goto(camp.address);
    await page.getByRole('button', { name: 'Open the campaign' }).waitFor();
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  }
  await camp.kill();
});
afterAll(async () => {
  await one?.close();
  await other?.close();
  await camp?.kill();
  scratch.remove();
});

const openRecord = async (page: Page): Promise<void> => {
  await page.locator('.ticks').click();
  await page.getByRole('heading', { name: 'From device to device by file' }).waitFor();
};

/** What a press hands to the downloads, as it lies on the stick. */
const saved = async (page: Page, press: () => Promise<void>): Promise<string> => {
  const coming = page.waitForEvent('download');
  await press();
  const download = await coming;
  const path = join(scratch.path, `${(files += 1)} ${download.suggestedFilename()}`);
  await download.saveAs(path);
  return path;
};

const everything = async (page: Page): Promise<string> => {
  await openRecord(page);
  const file = await saved(page, () =>
    page.getByRole('button', { name: 'Save a copy to carry away' }).click(),
  );
  await page.keyboard.press('Escape');
  return file;
};

const firstOf = (file: string): { digest: string; entries: number } =>
  JSON.parse(readFileSync(file, 'utf8').split('\n', 1)[0]!);

const pick = (page: Page, file: string) => page.locator('.carry-pick input').setInputFiles(file);

describe('Two tablets without a network', () => {
  let first: string;

  it('one saves a copy; the other brings it in on its first page, and has the campaign', async () => {
    await openCampaign(one.page, camp.address, 'Ceredin Saddle');
    await drillRun(one.page, { from: '0', to: '0.92' });
    first = await everything(one.page);
    expect(first).toMatch(/Ceredin Saddle from .+ UTC\.jsonl$/);

    const { page } = other;
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize(phone);
    await pick(page, first);
    const { entries } = firstOf(first);
    await page.getByRole('button', { name: `Bring in ${entries} entries` }).waitFor();
    expect(await page.locator('.bring').textContent()).toContain('This campaign is not on this tablet yet');
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize(phone);
    await page.getByRole('button', { name: `Bring in ${entries} entries` }).click();
    await page.getByText(`${entries} entries brought in.`).waitFor();
    await page.getByRole('link', { name: 'Open Ceredin Saddle' }).click();
    await page.getByRole('heading', { name: 'Who is writing?' }).waitFor();
  });

  it('the other goes on from there, and saves what the first one lacks', async () => {
    const { page } = other;
    await page.getByRole('button', { name: /^HN/ }).first().click();
    await page.getByRole('button', { name: 'Read; to the form' }).click();
    await page.getByRole('heading', { name: /Run 2: depth from/ }).waitFor();
    await drillRun(page, { to: '1.83' });
    await openRecord(page);
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize(phone);
    const lacking = page.getByRole('button', { name: /^Save what .+ lacks: \d+ entries/ });
    const answering = await saved(page, () => lacking.click());
    await page.keyboard.press('Escape');
    expect(firstOf(answering).entries).toBeLessThan(firstOf(first).entries);

    await openRecord(one.page);
    await pick(one.page, answering);
    await one.page.locator('[data-take]').click();
    await one.page.getByText('holds everything that is on this tablet').waitFor();
    expect(await violationsOn(one.page)).toEqual([]);
    await one.page.setViewportSize(phone);
    await one.page.getByRole('button', { name: 'Done' }).click();
    await one.page.keyboard.press('Escape');
    const [here, there] = [await everything(one.page), await everything(page)].map(firstOf);
    expect(here).toMatchObject({ digest: there!.digest, entries: there!.entries });
    expect(here!.entries).toBe(firstOf(first).entries + firstOf(answering).entries);
  });

  it('a torn file says so, and gives what is whole', async () => {
    await drillRunAgain(one.page);
    const whole = await everything(one.page);
    const torn = join(scratch.path, 'torn.jsonl');
    const bytes = readFileSync(whole);
    writeFileSync(torn, bytes.subarray(0, bytes.length - 60));
    const { page } = other;
    await openRecord(page);
    await pick(page, torn);
    await page.getByText(/The file is torn: it ends with line \d+/).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.setViewportSize(phone);
    await page.getByRole('button', { name: 'Leave it' }).click();
    const table = join(scratch.path, 'runs.csv');
    writeFileSync(table, 'run;from;to\n1;0;0,92\n');
    await pick(page, table);
    await page.getByText('This is no file that firnbook wrote for another device.').waitFor();
    await page.keyboard.press('Escape');
  });

  it('all of it goes with the keyboard alone', async () => {
    const { page } = one;
    const keys = keysOn(page);
    await keys.press(/tablet/);
    await keys.heading(/From device to device by file/);
    const file = await saved(page, () => keys.press(/^Save a copy to carry away/));
    await page.keyboard.press('Escape');

    const there = keysOn(other.page);
    await there.press(/tablet/);
    await there.heading(/From device to device by file/);
    // The chooser is the platform's own; the keyboard leads to what opens it.
    await there.tabTo(/^Bring in a file from another device/);
    await pick(other.page, file);
    await there.heading(/^Ceredin Saddle, from /);
    expect(await there.focused()).toMatch(/^Ceredin Saddle, from /);
    await there.press(/^Bring in \d+ entr/);
    await other.page.getByText('brought in.').waitFor();
    await there.press(/^Done/);
    await other.page.keyboard.press('Escape');
    expect(firstOf(await everything(other.page)).digest).toBe(firstOf(file).digest);
  });

  it('when the camp computer is back, it has everything from either', async () => {
    await camp.restart();
    const id = /\/c\/([^/]+)/.exec(one.page.url())![1]!;
    await openRecord(other.page);
    await other.page.getByRole('button', { name: 'Talk to the camp computer now' }).click();
    const { digest } = firstOf(await everything(one.page));
    await expect
      .poll(async () => (await camp.digest(id).catch(() => null))?.digest, { timeout: 20_000 })
      .toBe(digest);
  });
});

/** Another run on a tablet that stands at the answer of the one before. */
async function drillRunAgain(page: Page): Promise<void> {
  await page.locator('.answer button.act').first().click();
  await page.getByRole('heading', { name: /depth from/ }).waitFor();
  await drillRun(page, { to: '1.95' });
}

/** Hands all through to the camp computer, and breaks the connection when so many bytes went up in all. */
function cutting(port: number, cuts: number[]): Promise<{ server: Server; port: number; up: () => number }> {
  let up = 0;
  const server = createServer((from) => {
    const to = connect(port, '127.0.0.1');
    for (const socket of [from, to]) {
      socket.on('error', () => undefined);
      socket.on('close', () => {
        from.destroy();
        to.destroy();
      });
    }
    to.pipe(from);
    from.on('data', (chunk) => {
      up += chunk.length;
      if (cuts.length > 0 && up > cuts[0]!) {
        cuts.shift();
        from.destroy();
      } else to.write(chunk);
    });
  });
  return new Promise((resolve) =>
    server.listen(0, '127.0.0.1', () => {
      const bound = server.address();
      resolve({ server, port: typeof bound === 'object' ? bound!.port : 0, up: () => up });
    }),
  );
}

it('a photograph goes on where a broken connection left it', async () => {
  // A real picture with more behind its end, which no reader of pictures minds.
  const picture = Buffer.concat([
    readFileSync(join(root, 'apps/web/public/icon-192.png')),
    randomBytes(5.5 * 1024 * 1024),
  ]);
  const path = join(scratch.path, 'core.png');
  writeFileSync(path, picture);
  const cuts = [400_000, 1_900_000, 4_200_000, 5_600_000].map((bytes) => bytes + 100_000);
  const near = await startCamp(join(scratch.path, 'data-far'));
  const proxy = await cutting(Number(new URL(near.address).port), cuts);
  const tablet = await openTablet(join(scratch.path, 'profile-far'), { width: 820, height: 1180 });
  try {
    const { page } = tablet;
    await openCampaign(page, `http://127.0.0.1:${proxy.port}`, 'Ceredin Ridge');
    await drillRun(page, { from: '0', to: '0.92' });
    await page.goto(page.url().replace(/\/drill$/, '/log'));
    await page.locator('.stepper .run-name').click();
    await answer(page, 'photograph');
    await page.getByRole('button', { name: /^The whole run/ }).click();
    await page.getByLabel('Pick a picture').setInputFiles(path);
    await answer(page, 'keep');
    await page.locator('.answer .picture img').waitFor();
    const sha256 = createHash('sha256').update(picture).digest('hex');
    const id = /\/c\/([^/]+)/.exec(page.url())![1]!;
    const place = `${near.address}/api/campaigns/${id}/attachments/${sha256}`;
    await expect.poll(async () => (await fetch(place)).status, { timeout: 60_000, interval: 200 }).toBe(200);
    expect(Buffer.from(await (await fetch(place)).arrayBuffer()).equals(picture)).toBe(true);
    expect(cuts).toEqual([]);
    // Begun anew after each cut it would have been 11 MB and more.
    expect(proxy.up()).toBeLessThan(9_000_000);
  } finally {
    await tablet.close();
    proxy.server.close();
    await near.kill();
  }
}, 90_000);
