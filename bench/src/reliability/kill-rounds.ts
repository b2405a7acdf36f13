/**
 * D1: three tablets bring entries to a real server, which is killed (SIGKILL) in the middle of it, every fifth time
 * while it starts. After every kill the journal is checked and every entry that was acknowledged over HTTP looked for.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Replica } from '@firnbook/journal';
import { type Random, seeded } from '@firnbook/science/random';
import { campaignPaths, openSqliteStore, verifyJournal } from '@firnbook/storage/sqlite';
import { memoryTablet, newCampaign, post, runLogged } from './crew.ts';
import { startServerProcess } from './server-process.ts';

export interface KillRounds {
  readonly rounds: number;
  /** Entries that a tablet ticked as "on the camp computer". */
  readonly acknowledged: number;
  readonly lost: number;
  readonly killedAtStart: number;
  /** What the check of the journal found, over all rounds. */
  readonly findings: number;
}

export interface KillPlan {
  readonly rounds: number;
  readonly seed: number;
  /** Entries that are acknowledged before a kill, at least; they are brought three at a time. */
  readonly perRound: number;
  readonly preload?: readonly string[];
}

const startsOnly = 5;
/** A crew and its campaign last so many rounds: what is looked through at every start grows with what is held. */
const roundsTogether = 20;

export async function killInRounds(plan: KillPlan): Promise<KillRounds> {
  const random = seeded(plan.seed);
  const total = { rounds: 0, acknowledged: 0, lost: 0, killedAtStart: 0, findings: 0 };
  while (total.rounds < plan.rounds && total.lost === 0) {
    const folder = mkdtempSync(join(tmpdir(), 'firnbook-kills-'));
    try {
      await killOneCamp(join(folder, 'data'), plan, random, total);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
  return total;
}

type Tally = { -readonly [Name in keyof KillRounds]: number };

async function killOneCamp(data: string, plan: KillPlan, random: Random, total: Tally): Promise<void> {
  const campaign = newCampaign();
  const { journal } = campaignPaths(data, campaign);
  const acknowledged = new Set<string>();
  const crew = await Promise.all([1, 2, 3].map(() => memoryTablet(campaign)));
  let lost = 0;
  let startTook = 0;
  for (let round = 0; round < roundsTogether && total.rounds < plan.rounds && lost === 0; round += 1) {
    const begun = performance.now();
    const server = startServerProcess(data, plan.preload);
    try {
      if (round % startsOnly === startsOnly - 1) {
        total.killedAtStart += 1;
        await pause(random.uniform() * startTook);
      } else {
        const address = await server.address;
        startTook = performance.now() - begun;
        const work = { isOver: false };
        const enough = acknowledged.size + plan.perRound * (1 + random.uniform());
        const all = Promise.all(crew.map((device) => bring(device, address, acknowledged))).then(() => {
          work.isOver = true;
        });
        // By acknowledgements, so that a slow computer is tried as hard as a fast one, then at any moment.
        while (acknowledged.size < enough && !work.isOver) await pause(1);
        await pause(random.uniform() * 30);
        await server.kill();
        await all;
      }
    } finally {
      await server.kill();
    }
    const held = new Set<string>();
    const verdict = verifyJournal(journal, ({ hash }) => void held.add(hash));
    total.findings += verdict.findings.length;
    lost = [...acknowledged].filter((hash) => !held.has(hash)).length;
    total.rounds += 1;
  }
  // It opens for writing too, not only for a check.
  await openSqliteStore(journal, campaign).close();
  total.acknowledged += acknowledged.size;
  total.lost += lost;
}

/** One device: logs runs and brings them, until the server is gone; remembers what was acknowledged. */
async function bring(device: Replica, address: string, acknowledged: Set<string>): Promise<void> {
  for (;;) {
    await device.write([1, 2, 3].map((step) => runLogged(device.ledger.size + step)));
    const request = device.ask('camp');
    const reply = await post(request, address).catch(() => null);
    if (reply === null) return;
    await device.hear('camp', reply);
    // Exactly what the screen ticks as "on the camp computer".
    const camp = device.safety('camp');
    for (const { hash } of request.entries) {
      const entry = device.ledger.get(hash);
      if (entry !== undefined && camp.holds(entry)) acknowledged.add(hash);
    }
  }
}
