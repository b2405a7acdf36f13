import { join } from 'node:path';
import { visitStore } from './store-page.ts';
import { openTablet } from './tablet.ts';

export interface TwoTabs {
  readonly entries: number;
  /** Numbers of the device's chain that two entries have, and that none has. */
  readonly doubled: number;
  readonly skipped: number;
  readonly forks: number;
}

/**
 * B7: two tabs of one tablet that write at once, so many entries each.
 *
 * @param takesTurns false: the control, tabs that know nothing of each other
 */
export async function writeInTwoTabs(
  address: string,
  folder: string,
  count: number,
  takesTurns = true,
): Promise<TwoTabs> {
  const tablet = await openTablet(join(folder, `tabs-${takesTurns}`));
  try {
    const campaign = 'ceredin-tabs';
    const first = await visitStore(tablet.page, address);
    const second = await visitStore(await tablet.context.newPage(), address);
    // Both go on with one device's chain.
    await first.evaluate((name) => storePage.write(name, 1), campaign);
    const work = [campaign, count, takesTurns] as const;
    const write = [first, second].map((page) =>
      page.evaluate(([name, each, turns]) => storePage.write(name, each, turns), work),
    );
    await Promise.all(write);
    const { places, forks } = await first.evaluate((name) => storePage.held(name), campaign);
    const numbers = places.map((place) => Number(place.split(' ')[1]));
    const highest = Math.max(0, ...numbers);
    const devices = new Set(places.map((place) => place.split(' ')[0])).size;
    return {
      entries: places.length,
      doubled: places.length - new Set(places).size,
      skipped: devices === 1 ? highest - new Set(numbers).size : 0,
      forks,
    };
  } finally {
    await tablet.kill();
  }
}
