import { fillWithDemo } from '../apps/cli/src/fill-with-demo.ts';
import { type CampComputer, startCamp } from './camp.ts';
import type { Tablet } from './tablet.ts';

/** A camp computer that holds the invented season, as `npm start` fills a new one. */
export async function startDemoCamp(dataFolder: string): Promise<CampComputer> {
  await fillWithDemo(dataFolder);
  return startCamp(dataFolder);
}

/** Opens the season on a tablet as HN. Resolves with the campaign's address: holes and places come after it. */
export async function openSeason({ page }: Tablet, camp: CampComputer): Promise<string> {
  await page.goto(camp.address);
  await page.getByText('Ceredin Saddle').first().click();
  await page.getByRole('button', { name: 'HN' }).first().click();
  await page.getByRole('button', { name: 'Read; to the form' }).waitFor();
  return `${camp.address}/c/${/\/c\/([^/]+)/.exec(page.url())?.[1]}`;
}
