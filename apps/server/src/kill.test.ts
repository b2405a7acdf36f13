import { randomInt } from 'node:crypto';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import type { Replica } from '@firnbook/journal';
import { campaignPaths, openSqliteStore, verifyJournal } from '@firnbook/storage/sqlite';
import { expect, it } from 'vitest';
import { newCampaign, post, runLogged, tablet } from './crew.suite.ts';
import { inFolder } from './folders.suite.ts';
import { startProcess } from './process.suite.ts';

interface Tally {
  readonly acknowledged: Set<string>;
  lost: number;
  killedAtStart: number;
  readonly findings: string[];
}

/** One device: logs runs and brings them, until the server is gone; remembers what was acknowledged. */
async function bring(device: Replica, address: string, tally: Tally): Promise<void> {
  for (;;) {
    await device.write([1, 2, 3].map((step) => runLogged(device.ledger.size + step)));
    const request = device.ask('camp');
    const reply = await post(request, address).catch(() => null);
    if (reply === null) return;
    await device.hear('camp', reply);
    // Exactly what the screen ticks as "on the camp computer".
    const camp = device.safety('camp');
    for (const { hash } of request.entries)
      if (camp.holds(device.ledger.get(hash)!)) tally.acknowledged.add(hash);
  }
}

async function killLoop(folder: string, rounds: number, preload: readonly string[]): Promise<Tally> {
  const campaign = newCampaign();
  const data = join(folder, 'data');
  const { journal } = campaignPaths(data, campaign);
  const crew = await Promise.all([tablet(campaign), tablet(campaign), tablet(campaign)]);
  const tally: Tally = { acknowledged: new Set(), lost: 0, killedAtStart: 0, findings: [] };
  for (let round = 0; round < rounds; round += 1) {
    const server = startProcess(data, preload);
    try {
      if (round % 5 === 4) {
        tally.killedAtStart += 1;
        await pause(randomInt(0, 450));
      } else {
        const address = await server.address;
        let isOver = false;
        const work = Promise.all(crew.map((device) => bring(device, address, tally))).then(() => {
          isOver = true;
        });
        // By acknowledgements, so that a slow computer is tried as hard as a fast one, then at any moment.
        const enough = tally.acknowledged.size + randomInt(10, 60);
        while (tally.acknowledged.size < enough && !isOver) await pause(1);
        await pause(randomInt(0, 30));
        await server.kill();
        await work;
      }
    } finally {
      await server.kill();
    }
    tally.findings.push(...verifyJournal(journal).findings.map((finding) => finding.what));
    const store = openSqliteStore(journal, campaign);
    const held = new Set((await store.load()).map((entry) => entry.hash));
    await store.close();
    tally.lost = [...tally.acknowledged].filter((hash) => !held.has(hash)).length;
    if (tally.lost > 0) break;
  }
  return tally;
}

it(
  'J4, I1: 50 kills at random moments, ten of them during start-up, lose no acknowledged entry',
  () =>
    inFolder(async (folder) => {
      const tally = await killLoop(folder, 50, []);
      expect(tally.findings).toEqual([]);
      expect(tally.lost).toBe(0);
      expect(tally.killedAtStart).toBe(10);
      expect(tally.acknowledged.size).toBeGreaterThan(1000);
      process.stdout.write(`kill: 50 rounds, ${tally.acknowledged.size} acknowledged, ${tally.lost} lost\n`);
    }),
  600_000,
);

it('J4 control: the same loop catches a server that answers before it stores', () =>
  inFolder(async (folder) => {
    const wrong = fileURLToPath(new URL('./controls/answer-first.mjs', import.meta.url));
    const tally = await killLoop(folder, 4, ['--import', wrong]);
    expect(tally.lost).toBeGreaterThan(0);
  }));
