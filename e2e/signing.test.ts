import { join } from 'node:path';
import { campaignPaths, verifySigned } from '@firnbook/storage/sqlite';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { drillRun, goTo, openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';

// Signed entries in a real browser, from the tap to the camp computer's disk. The steps build on each other.

let camp: CampComputer;
let scratch: Scratch;
let tablet: Tablet;
let campaign = '';

beforeAll(async () => {
  scratch = makeScratch('signing');
  camp = await startCamp(join(scratch.path, 'data'));
  tablet = await openTablet(join(scratch.path, 'tablet'));
});

afterAll(async () => {
  await tablet?.close();
  await camp?.kill();
  scratch?.remove();
});

/** What the camp computer's disk holds, as `firnbook verify` counts it. */
const onDisk = () => verifySigned(campaignPaths(camp.dataFolder, campaign).journal);

async function synced(page: Page, entries: number): Promise<void> {
  await expect.poll(async () => (await camp.digest(campaign)).entries, { timeout: 20_000 }).toBe(entries);
  await page.locator('.ticks .tick.safe').nth(1).waitFor();
}

/** Ids of the devices that wrote, in order of arrival. */
function devices(page: Page): Promise<readonly string[]> {
  return page.evaluate(async (name) => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open(name);
      request.onsuccess = () => resolve(request.result);
    });
    const rows = await new Promise<{ head: string }[]>((resolve) => {
      const request = db.transaction('entries').objectStore('entries').getAll();
      request.onsuccess = () => resolve(request.result);
    });
    db.close();
    return rows.map(({ head }) => JSON.parse(head).device as string);
  }, `firnbook-${campaign}`);
}

/** Opens Drill. A new browser asks who speaks, and for the cautions. */
async function openDrill(page: Page): Promise<void> {
  await page.goto(`${camp.address}/c/${campaign}/B/drill`);
  const who = page.getByRole('heading', { name: 'Who is writing?' });
  const read = page.getByRole('button', { name: 'Read; to the form' });
  const form = page.locator('.pad');
  await who.or(read).or(form).first().waitFor();
  // The page's head has a button with the same initials, but only once somebody speaks.
  if (await who.isVisible()) await page.getByRole('button', { name: 'HN' }).click();
  await read.or(form).first().waitFor();
  if (await read.isVisible()) await read.click();
  await form.waitFor();
}

it('J9: every entry from the first tap on is signed, and the camp computer finds all of them right', async () => {
  const { page } = tablet;
  await openCampaign(page, camp.address, 'Ceredin Saddle');
  campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
  await drillRun(page, { from: '12.30', to: '13.22' });
  await synced(page, (await devices(page)).length);
  const { entries, ok, signatures } = onDisk();
  expect(ok).toBe(true);
  expect(signatures).toEqual({ signed: entries, unsigned: 0, unknownKey: 0, wrong: 0 });
});

it('A8: the private key is of use to the page and cannot be read by it', async () => {
  const told = await tablet.page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('firnbook-device-key');
      request.onsuccess = () => resolve(request.result);
    });
    const pair = await new Promise<CryptoKeyPair>((resolve) => {
      const request = db.transaction('keys').objectStore('keys').get('own');
      request.onsuccess = () => resolve(request.result);
    });
    db.close();
    const read = (format: 'pkcs8' | 'jwk') =>
      crypto.subtle.exportKey(format, pair.privateKey).then(
        () => 'read',
        (error: Error) => error.name,
      );
    return [pair.privateKey.extractable, await read('pkcs8'), await read('jwk')];
  });
  expect(told).toEqual([false, 'InvalidAccessError', 'InvalidAccessError']);
});

it('J9: the key outlives the browser: after a restart the device goes on under its name', async () => {
  const before = new Set(await devices(tablet.page));
  await tablet.close();
  tablet = await openTablet(join(scratch.path, 'tablet'));
  const { page } = tablet;
  await openDrill(page);
  await drillRun(page, { to: '14.10' });
  expect(new Set(await devices(page))).toEqual(before);
  await synced(page, (await devices(page)).length);
  expect(onDisk().signatures).toMatchObject({ unsigned: 0, wrong: 0 });
});

it('the history of the ice says who signed, and in red where a signature is wrong', async () => {
  const { page } = tablet;
  await goTo(page, 'Core');
  const marks = page.locator('.history [data-proof]');
  await marks.first().waitFor();
  expect(new Set(await marks.evaluateAll((all) => all.map((one) => one.getAttribute('data-proof'))))).toEqual(
    new Set(['signed']),
  );
  expect(await marks.first().textContent()).toMatch(/^signed by Tablet [0-9A-F]{4}$/);

  // Somebody exchanges the signatures in the tablet's own database.
  await page.evaluate(async (name) => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open(name);
      request.onsuccess = () => resolve(request.result);
    });
    const entries = db.transaction('entries', 'readwrite').objectStore('entries');
    const rows = await new Promise<{ signature: string }[]>((resolve) => {
      const request = entries.getAll();
      request.onsuccess = () => resolve(request.result);
    });
    await Promise.all(
      rows.map(
        (row, index) =>
          new Promise<void>((resolve) => {
            const changed = { ...row, signature: rows[(index + 1) % rows.length]!.signature };
            const request = entries.put(changed, index + 1);
            request.onsuccess = () => resolve();
          }),
      ),
    );
    db.close();
  }, `firnbook-${campaign}`);
  await page.reload();
  const wrong = page.locator('.history [data-proof="wrong"]');
  await wrong.first().waitFor();
  expect(await wrong.first().textContent()).toMatch(/^NOT signed by Tablet/);
  // Nothing is dropped for it: both runs are still told.
  expect(await page.locator('.history > li').count()).toBeGreaterThan(1);
});

it('where the browser has no WebCrypto, as over plain http, entries are kept, unsigned, and the screens say so', async () => {
  const other = await openTablet(join(scratch.path, 'plain'));
  try {
    const { page } = other;
    await page.addInitScript(() => Object.defineProperty(crypto, 'subtle', { value: undefined }));
    await openDrill(page);
    const before = onDisk().signatures;
    await drillRun(page, { to: '14.95' });
    await expect.poll(() => onDisk().signatures.unsigned, { timeout: 20_000 }).toBeGreaterThan(0);
    expect(onDisk()).toMatchObject({ ok: true, signatures: { signed: before.signed, wrong: 0 } });
    await page.locator('.ticks').click();
    await page.getByText('cannot sign').waitFor();
  } finally {
    await other.close();
  }
});
