import type { Page } from 'playwright-core';
import { vi } from 'vitest';
import { fillWithDemo } from '../apps/cli/src/fill-with-demo.ts';
import { type CampComputer, startCamp } from './camp.ts';
import type { Tablet } from './tablet.ts';

/** A camp computer that holds the invented season, as `npm start` fills a new one. */
export async function startDemoCamp(dataFolder: string): Promise<CampComputer> {
  await fillWithDemo(dataFolder);
  return startCamp(dataFolder);
}

/** Opens the season on a tablet as HN, all of it. Resolves with the campaign's address: holes and places come after it. */
export async function openSeason(tablet: Tablet, camp: CampComputer): Promise<string> {
  const address = await enterSeason(tablet, camp);
  const campaign = address.split('/').at(-1)!;
  const { entries } = await camp.digest(campaign);
  await vi.waitUntil(async () => (await entriesHeld(tablet.page, campaign)) >= entries, { timeout: 60_000 });
  return address;
}

/** The same, while the season is still on its way: a first form is there before the last entry. */
export async function enterSeason({ page }: Tablet, camp: CampComputer): Promise<string> {
  await page.goto(camp.address);
  await page.getByText('Ceredin Saddle').first().click();
  await page.getByRole('button', { name: 'HN' }).first().click();
  await page.getByRole('button', { name: 'Read; to the form' }).waitFor();
  return `${camp.address}/c/${/\/c\/([^/]+)/.exec(page.url())?.[1]}`;
}

/** How many entries the tablet's database holds. */
function entriesHeld(page: Page, campaign: string): Promise<number> {
  return page.evaluate(async (name) => {
    const done = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const db = await done(indexedDB.open(name));
    const count = await done(db.transaction('entries').objectStore('entries').count());
    db.close();
    return count;
  }, `firnbook-${campaign}`);
}
