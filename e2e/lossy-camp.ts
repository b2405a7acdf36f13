import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { digestOf } from '@firnbook/journal';
import { backUp, campaignPaths, verifyJournal } from '@firnbook/storage/sqlite';
import type { Page } from 'playwright-core';
import {
  calm,
  type LossyProxy,
  startLossyProxy,
  type Troubles,
} from '../bench/src/reliability/lossy-proxy.ts';
import {
  answersLate,
  type ServerProcess,
  startServerProcess,
} from '../bench/src/reliability/server-process.ts';
import { answer, drillRun, openCampaign } from './first-steps.ts';
import { root, webFolder } from './folders.ts';
import { heldOn } from './held-on.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** What three tablets and a camp computer ended with, after all that befell them. */
export interface LossyEnd {
  /** Digest of what each surviving tablet holds in its browser's database, and of what the camp computer does. */
  readonly digests: readonly string[];
  readonly entries: number;
  /** Entries that a surviving tablet ticked as "on this tablet", and that are nowhere. */
  readonly lostFromTablets: number;
  /** Entries that the destroyed tablet had ticked as "on the camp computer", and that are nowhere. */
  readonly lostFromCamp: number;
  /** Connections that were cut, stalled or refused, and requests that were said twice. */
  readonly troubles: number;
  readonly kills: number;
  /** Entries that the camp computer had when it came back from the old backup, and that it had just before. */
  readonly setBack: readonly [number, number];
}

const troubles: Troubles = { refuse: 0.1, cutUp: 0.2, cutDown: 0.2, delay: 0.5, stall: 0.1, replay: 0.3 };
/** ms */
const slow = 120_000;
const cli = fileURLToPath(new URL('../apps/cli/src/main.ts', import.meta.url));

/**
 * Three tablets drill at one camp computer behind a lossy proxy. It is killed three times, its disk is exchanged for an
 * old backup, and one tablet is destroyed at the moment when the power goes.
 *
 * @param isRight false starts, after the backup, a server that answers before it stores: the control
 */
export async function runLossyCamp(folder: string, seed: number, isRight: boolean): Promise<LossyEnd> {
  const data = join(folder, 'data');
  const stick = join(folder, 'stick');
  mkdirSync(folder, { recursive: true });
  const proxy = await startLossyProxy({ seed, troubles: calm, reach: 5000, lateness: 60, stallFor: 400 });
  const tablets: Tablet[] = [];
  let server: ServerProcess | null = null;
  let kills = 0;
  const start = async (preload: readonly string[] = []): Promise<void> => {
    server = startServerProcess(data, preload, webFolder);
    proxy.aim(await server.address);
  };
  const kill = async (): Promise<void> => {
    kills += 1;
    await server?.kill();
  };
  try {
    await start();
    for (const name of ['a', 'b', 'c']) {
      const tablet = await openTablet(join(folder, `tablet-${name}`));
      // A bad network on a busy machine; what is said here is that nothing is lost, not how quick it is.
      tablet.context.setDefaultTimeout(slow);
      tablets.push(tablet);
    }
    const [a, b, c] = tablets as [Tablet, Tablet, Tablet];
    const campaign = await joinAll(tablets, proxy.address);
    const journal = campaignPaths(data, campaign).journal;

    proxy.trouble(troubles);
    let depth = 12.3;
    const drill = async ({ page }: Tablet): Promise<void> => {
      depth += 0.4;
      await drillRun(page, { to: depth.toFixed(2) });
      await page.locator('.ticks').getByText('on this tablet').waitFor();
      await answer(page, 'next');
    };
    for (const tablet of tablets) await drill(tablet);
    await kill();
    await start();
    await backUp(data, campaign, stick);
    for (const tablet of tablets) await drill(tablet);
    await atCamp(b.page);
    await kill();
    const before = verifyJournal(journal).entries;
    recover(stick, data);
    const after = verifyJournal(journal).entries;
    await start(isRight ? [] : [answersLate]);

    // Two of the crew are out of the tent: what the third brings now is on the camp computer and nowhere else.
    await atCamp(c.page);
    for (const { context } of [a, b]) await context.setOffline(true);
    await drill(c);
    await drill(a);
    await atCamp(c.page);
    const onCamp = await hashesOn(c.page, campaign);
    await Promise.all([kill(), c.kill()]);
    rmSync(join(folder, 'tablet-c'), { recursive: true, force: true, maxRetries: 5 });

    const onTablets = [...(await hashesOn(a.page, campaign)), ...(await hashesOn(b.page, campaign))];
    const met = Object.values(proxy.met).reduce((sum, count) => sum + count, 0) - proxy.met.delay;
    proxy.heal();
    await start();
    for (const { context } of [a, b]) await context.setOffline(false);
    const digests = await settle([a.page, b.page], proxy, campaign);
    const held = new Set<string>();
    const { entries, ok } = verifyJournal(journal, ({ hash }) => void held.add(hash));
    if (!ok) throw new Error('The journal of the camp computer is damaged.');
    const lost = (hashes: readonly string[]): number => hashes.filter((hash) => !held.has(hash)).length;
    return {
      ...{ digests, entries, kills, troubles: met, setBack: [after, before] },
      lostFromTablets: lost(onTablets),
      lostFromCamp: lost(onCamp),
    };
  } finally {
    for (const tablet of tablets) await tablet.kill().catch(() => undefined);
    await (server as ServerProcess | null)?.kill();
    await proxy.close();
  }
}

/** The first opens a campaign, the others find it; each keeps the screens for when there is no camp computer. */
async function joinAll(tablets: readonly Tablet[], address: string): Promise<string> {
  const [first, ...others] = tablets as [Tablet, ...Tablet[]];
  await openCampaign(first.page, address, 'Ceredin Saddle');
  // The first run says where the hole stands; the others go on from it.
  await drillRun(first.page, { from: '12.00', to: '12.30' });
  await answer(first.page, 'next');
  await atCamp(first.page);
  const campaign = /\/c\/([^/]+)/.exec(first.page.url())?.[1] ?? '';
  for (const { page } of others) {
    await page.goto(`${address}/c/${campaign}`);
    await page.getByRole('button', { name: 'HN' }).first().click();
    await page.getByRole('button', { name: 'Read; to the form' }).click();
    await page.goto(`${address}/c/${campaign}/B/drill`);
    await page.getByRole('heading', { name: 'Run 2' }).waitFor();
    await atCamp(page);
  }
  for (const { page } of tablets) {
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    // A page that was on its way while the worker took its place is in nobody's hands until it is loaded anew.
    if (await page.evaluate(() => navigator.serviceWorker.controller === null)) await page.reload();
    await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  }
  return campaign;
}

const atCamp = (page: Page): Promise<void> =>
  page.locator('.ticks').getByText('on the camp computer').waitFor();

const hashesOn = async (page: Page, campaign: string): Promise<readonly string[]> =>
  (await heldOn(page, campaign)).map(({ hash }) => hash);

/** The command that a person gives, in the words of the handbook. */
function recover(stick: string, data: string): void {
  const node = ['--import', 'tsx', '--conditions=source', cli];
  execFileSync(process.execPath, [...node, 'recover', stick, '--set-aside', '--data', data], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
}

/** Waits until all sides hold the same, at most two minutes; then whatever each holds. */
async function settle(
  pages: readonly Page[],
  proxy: LossyProxy,
  campaign: string,
): Promise<readonly string[]> {
  for (let tries = 0; ; tries += 1) {
    const answer = await fetch(`${proxy.address}/api/campaigns/${campaign}/digest`);
    const { digest } = (await answer.json()) as { digest: string };
    const held = await Promise.all(pages.map((page) => hashesOn(page, campaign)));
    const digests = [...held.map(digestOf), digest];
    if (new Set(digests).size === 1 || tries === 240) return digests;
    await pages[0]!.waitForTimeout(500);
  }
}
