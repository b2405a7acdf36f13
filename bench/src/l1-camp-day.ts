/**
 * L1: ten tablets come back from a day without network and bring 500 entries each, all at once, while each flush
 * takes 20 ms longer. Limit: everything on the camp computer's disk within 10 s. The tablets are real replicas that
 * take what the others brought too; they share this process.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { median, round2 } from './figures.ts';
import { heldAt, memoryTablet, newCampaign, post, runLogged } from './reliability/crew.ts';
import { bareCommits, slowedBy, slowServer } from './slow-disk.ts';

const rounds = 3;
const tablets = 10;
const each = 500;
const flush = 20;
const limit = 10_000;

/** ms until the server had everything, and until every tablet had. */
async function day(folder: string): Promise<{ readonly stored: number; readonly everywhere: number }> {
  const campaign = newCampaign();
  const devices = await Promise.all(Array.from({ length: tablets }, () => memoryTablet(campaign)));
  for (const device of devices)
    await device.write(Array.from({ length: each }, (_, number) => runLogged(number + 1)));
  const server = await slowServer(folder, flush);
  try {
    let stored = 0;
    const start = performance.now();
    await Promise.all(
      devices.map(async (device) => {
        let isStored = false;
        for (let again = true; again || device.ledger.size < tablets * each; ) {
          ({ again } = await device.hear('camp', await post(device.ask('camp'), server.address, 60_000)));
          if (
            isStored ||
            device
              .safety('camp')
              .missing()
              .some(({ header }) => header.device === device.device)
          )
            continue;
          isStored = true;
          stored = Math.max(stored, performance.now() - start);
        }
      }),
    );
    const everywhere = performance.now() - start;
    const { entries } = await heldAt(server.address, campaign);
    if (entries !== tablets * each) throw new Error(`${entries} entries on the camp computer`);
    return { stored, everywhere };
  } finally {
    await server.stop();
  }
}

const days: Awaited<ReturnType<typeof day>>[] = [];
const commits: number[] = [];
for (let round = 0; round < rounds; round += 1) {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-l1-'));
  try {
    commits.push((await bareCommits(folder, 1, flush)).commit);
    days.push(await day(folder));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
const stored = median(days.map((one) => one.stored));
const line = {
  id: 'L1',
  what: `${tablets} tablets bring ${each} entries each at once`,
  unit: 'ms until all are stored',
  figure: Math.round(stored),
  slowestRound: Math.round(Math.max(...days.map((one) => one.stored))),
  everyTabletHasAll: Math.round(median(days.map(({ everywhere }) => everywhere))),
  peer: Math.round(median(commits) * tablets * each),
  peerIs: `${tablets * each} rows, one commit each in a bare better-sqlite3 loop, from ${round2(median(commits))} ms a commit over 200`,
  disk: slowedBy(flush),
  rounds,
  limit,
  holds: stored <= limit,
};
process.stdout.write(`${JSON.stringify(line)}\n`);
