import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Part } from '../bench/src/reliability/part.ts';
import build from './built.ts';
import { crashTabs } from './crash-rounds.ts';
import { canMount } from './disk.ts';
import { makeScratch, pagesFolder } from './folders.ts';
import { cutPower, fillDisk } from './guard-rounds.ts';
import { type Killed, type KillPlan, killTablet } from './kill-rounds.ts';
import { type LossyEnd, runLossyCamp } from './lossy-camp.ts';
import { servePages } from './pages-server.ts';
import { browserProgram } from './tablet.ts';
import { writeInTwoTabs } from './two-tabs.ts';

/** The parts of the harness that need a browser, in full: RELIABILITY's B1 to B4, B7 and S5. */

const needsBrowser = (): string | null =>
  existsSync(browserProgram) ? null : `there is no browser at ${browserProgram}`;
const needsBrowserAndDisks = (): string | null =>
  needsBrowser() ??
  (canMount() ? null : 'no image of a disk can be mounted (needs Linux, root and loop devices)');

let isBuilt = false;

/** Builds what the browser shows, once; lends bare pages and a folder. */
async function withPages(work: (address: string, folder: string) => Promise<void>): Promise<void> {
  if (!isBuilt) build();
  isBuilt = true;
  const server = await servePages(pagesFolder);
  const scratch = makeScratch('soak');
  try {
    await work(server.address, scratch.path);
  } finally {
    server.close();
    scratch.remove();
  }
}

/** Brand-new tablets, killed so often each. */
async function killTablets(
  address: string,
  tablets: number,
  plan: Omit<KillPlan, 'name'>,
): Promise<Omit<Killed, 'last'> & { readonly wrong: number }> {
  const total = { acknowledged: 0, lost: 0, putBack: 0, wrong: 0 };
  for (let one = 0; one < tablets; one += 1) {
    const name = `tablet-${plan.tears ? 'torn' : 'plain'}-${plan.copies ?? 'all'}-${one}`;
    const { acknowledged, lost, putBack, last } = await killTablet(address, { ...plan, name });
    total.acknowledged += acknowledged;
    total.lost += lost;
    total.putBack += putBack;
    total.wrong += last.damaged + last.forks + last.orphans;
  }
  return total;
}

/** What is told of many ends. */
async function runCamps(folder: string, runs: number, seed: number, isRight: boolean) {
  const total = {
    runs,
    entries: 0,
    kills: 0,
    troubles: 0,
    unequal: 0,
    notSetBack: 0,
    lost: 0,
    lostFromCamp: 0,
  };
  for (let run = 0; run < runs; run += 1) {
    const end: LossyEnd = await runLossyCamp(join(folder, `camp-${run}`), seed + run, isRight);
    total.entries += end.entries;
    total.kills += end.kills;
    total.troubles += end.troubles;
    total.unequal += new Set(end.digests).size === 1 ? 0 : 1;
    total.notSetBack += end.setBack[0] < end.setBack[1] ? 0 : 1;
    total.lost += end.lostFromTablets;
    total.lostFromCamp += end.lostFromCamp;
  }
  return total;
}

export const tabletParts: readonly Part[] = [
  {
    id: 'B1',
    what: 'kill -9 of the browser',
    lacks: needsBrowser,
    run: (tell) =>
      withPages(async (address, folder) => {
        const plain = await killTablets(address, 1, { folder, kills: 20, copies: undefined, tears: false });
        tell.figure('kill -9 of the browser', plain, plain.lost + plain.wrong === 0);
        const torn = await killTablets(address, 5, { folder, kills: 4, copies: undefined, tears: true });
        tell.figure('killed in mid record', torn, torn.lost + torn.wrong === 0);
        const second = await killTablets(address, 2, { folder, kills: 4, copies: 2, tears: true });
        tell.figure('the second copy alone', second, second.lost + second.wrong === 0 && second.putBack > 0);
        const alone = await killTablets(address, 1, { folder, kills: 4, copies: 1, tears: true });
        tell.control('the database alone', alone, alone.lost > 0);
      }),
  },
  {
    id: 'B2',
    what: 'power cuts of a tablet',
    lacks: needsBrowserAndDisks,
    run: (tell) =>
      withPages(async (address) => {
        const cuts = await cutPower(address, 20, 'ours');
        tell.figure('power cuts of a tablet', cuts, cuts.lost === 0 && cuts.acknowledged >= 400);
        const relaxed = await cutPower(address, 4, 'relaxed');
        tell.control('relaxed durability', relaxed, relaxed.lostRounds > 0);
        const torn = await cutPower(address, 6, 'torn log');
        tell.control('behind a torn log', torn, torn.lostRounds > 0);
      }),
  },
  {
    id: 'B3',
    what: 'tab crashes',
    lacks: needsBrowser,
    run: (tell) =>
      withPages(async (_, folder) => {
        const crashes = await crashTabs(join(folder, 'kept'), 20);
        tell.figure('tab crashes', crashes, crashes.lost + crashes.keysLost === 0 && crashes.keys > 20);
        const bare = await crashTabs(join(folder, 'bare'), 3, false);
        tell.control('nothing kept of a form', bare, bare.keysLost === bare.keys);
      }),
  },
  {
    id: 'B4',
    what: 'full disk of a tablet',
    lacks: needsBrowserAndDisks,
    run: (tell) =>
      withPages(async (address) => {
        for (const by of ['another', 'itself'] as const) {
          const fills = await fillDisk(address, 10, by, true);
          const what = by === 'itself' ? 'full by its own writes' : 'full by another program';
          tell.figure(what, fills, fills.lost === 0 && fills.wentOn === fills.rounds && fills.refused > 0);
        }
        const bare = await fillDisk(address, 2, 'another', false);
        tell.control('no guard, one copy', bare, bare.lost > 0);
      }),
  },
  {
    id: 'B7',
    what: 'two tabs',
    lacks: needsBrowser,
    run: (tell) =>
      withPages(async (address, folder) => {
        const tabs = await writeInTwoTabs(address, folder, 500);
        const wrong = tabs.doubled + tabs.skipped + tabs.forks;
        tell.figure('two tabs', tabs, wrong === 0 && tabs.entries === 1001);
        const apart = await writeInTwoTabs(address, folder, 60, false);
        tell.control('without turns', apart, apart.doubled + apart.forks > 0);
      }),
  },
  {
    id: 'S5',
    what: 'three browsers',
    lacks: needsBrowser,
    run: (tell) =>
      withPages(async (_, folder) => {
        const camps = await runCamps(join(folder, 'right'), 20, 500, true);
        const wrong = camps.lost + camps.lostFromCamp + camps.unequal + camps.notSetBack;
        tell.figure('three browsers', camps, wrong === 0 && camps.troubles > 100);
        const late = await runCamps(join(folder, 'wrong'), 1, 700, false);
        tell.control('answers late', late, late.lostFromCamp > 0);
      }),
  },
];
