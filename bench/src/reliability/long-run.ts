/**
 * D11: ten devices log and sync for a long time with a server that is killed every so often and started again. Nothing
 * acknowledged is lost, its memory does not grow, and the write-ahead log stays small.
 */
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Replica } from '@firnbook/journal';
import { campaignPaths, verifyJournal } from '@firnbook/storage/sqlite';
import { memoryTablet, newCampaign, post, runLogged } from './crew.ts';
import { startServerProcess } from './server-process.ts';

export interface LongRun {
  readonly minutes: number;
  readonly kills: number;
  readonly entries: number;
  readonly acknowledged: number;
  readonly lost: number;
  /** Exchanges that a living server answered with something else than an answer. */
  readonly refused: number;
  /** Memory of the server that ran undisturbed over the whole time, late against early; 1.05: 5 % more. */
  readonly memoryGrowth: number;
  /** Largest size of a write-ahead log, megabytes. */
  readonly logMegabytes: number;
}

export interface LongRunPlan {
  readonly minutes: number;
  /** Seconds between kills. */
  readonly killEvery: number;
  readonly clients: number;
  /** ms that each device waits between two exchanges. */
  readonly rest: number;
  /** Each device writes an entry before every so many-th exchange: a busy camp asks far more than it writes. */
  readonly entryEvery: number;
  readonly preload?: readonly string[];
}

/**
 * Two servers: one is killed again and again; the other is not, as memory that grows would never show in a process
 * that lives half a minute. Half of the devices are with each.
 */
export async function runLong(plan: LongRunPlan): Promise<LongRun> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-long-'));
  const killed = await openSide(join(folder, 'killed'), plan);
  const steady = await openSide(join(folder, 'steady'), plan);
  const total = { kills: 0, lost: 0 };
  const sign = { isOver: false };
  const logBytes = (): number => Math.max(bytesOf(killed.log), bytesOf(steady.log));
  const memory: number[] = [];
  let most = 0;
  try {
    await Promise.all([killed.start(), steady.start()]);
    const work = [killed, steady].flatMap((side) => side.crew.map((device) => log(side, device, plan, sign)));
    const end = Date.now() + plan.minutes * 60_000;
    let nextKill = Date.now() + plan.killEvery * 1000;
    while (Date.now() < end) {
      await pause(Math.min(500, plan.minutes * 600));
      memory.push(steady.memory());
      most = Math.max(most, logBytes());
      if (Date.now() < nextKill) continue;
      // Right after an acknowledgement, where a server that lied has had the least time to make it true.
      for (const { size } = killed.acknowledged; killed.acknowledged.size === size && Date.now() < end; )
        await pause(1);
      await killed.kill();
      total.kills += 1;
      // Before anybody syncs again: what a tablet still has would hide what the server lost.
      total.lost += killed.look().lost;
      await killed.start();
      nextKill = Date.now() + plan.killEvery * 1000;
    }
    sign.isOver = true;
    await Promise.all(work);
    await Promise.all([killed.kill(), steady.kill()]);
    const ends = [killed.look(), steady.look()];
    return {
      minutes: plan.minutes,
      kills: total.kills,
      entries: ends.reduce((sum, { entries }) => sum + entries, 0),
      acknowledged: killed.acknowledged.size + steady.acknowledged.size,
      lost: ends.reduce((sum, { lost }) => sum + lost, total.lost),
      refused: killed.refused() + steady.refused(),
      memoryGrowth: growth(memory),
      logMegabytes: most / 1024 / 1024,
    };
  } finally {
    sign.isOver = true;
    await killed.kill();
    await steady.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Side {
  readonly campaign: string;
  readonly crew: readonly Replica[];
  readonly acknowledged: Set<string>;
  /** The write-ahead log. */
  readonly log: string;
  start(): Promise<void>;
  address(): string;
  isUp(): boolean;
  refused(): number;
  noteRefusal(): void;
  memory(): number;
  kill(): Promise<void>;
  /** Whether all that was acknowledged is in the journal and sound. While no server runs. */
  look(): { readonly entries: number; readonly lost: number };
}

async function openSide(data: string, { clients, preload = [] }: LongRunPlan): Promise<Side> {
  const campaign = newCampaign();
  const { journal } = campaignPaths(data, campaign);
  const acknowledged = new Set<string>();
  const crew = await Promise.all(
    Array.from({ length: Math.ceil(clients / 2) }, () => memoryTablet(campaign)),
  );
  let server = startServerProcess(data, preload);
  let address = '';
  let isUp = false;
  let refused = 0;
  const kill = async (): Promise<void> => {
    isUp = false;
    await server.kill();
  };
  return {
    ...{ campaign, crew, acknowledged, log: `${journal}-wal`, kill },
    start: async () => {
      if (server.isGone()) server = startServerProcess(data, preload);
      address = await server.address;
      isUp = true;
    },
    address: () => address,
    isUp: () => isUp,
    refused: () => refused,
    noteRefusal: () => {
      refused += 1;
    },
    memory: () => server.memory(),
    look: () => {
      const held = new Set<string>();
      const { ok, entries } = verifyJournal(journal, ({ hash }) => void held.add(hash));
      const lost = [...acknowledged].filter((hash) => !held.has(hash)).length;
      return { entries, lost: ok ? lost : Math.max(1, lost) };
    },
  };
}

/** One device: now and then an entry, an exchange, a rest. */
async function log(
  side: Side,
  device: Replica,
  { rest, entryEvery }: LongRunPlan,
  sign: { readonly isOver: boolean },
): Promise<void> {
  for (let number = 0; !sign.isOver; number += 1) {
    if (number % entryEvery === 0) await device.write([runLogged(number)]);
    const address = side.address();
    const wasUp = side.isUp();
    try {
      const request = device.ask('camp');
      await device.hear('camp', await post(request, address));
      const camp = device.safety('camp');
      for (const { hash } of request.entries) {
        const entry = device.ledger.get(hash);
        if (entry !== undefined && camp.holds(entry)) side.acknowledged.add(hash);
      }
    } catch {
      if (wasUp && side.isUp() && side.address() === address) side.noteRefusal();
    }
    await pause(rest);
  }
}

const bytesOf = (file: string): number => {
  try {
    return statSync(file).size;
  } catch {
    return 0;
  }
};

/** Median of the last fifth against the median of the second fifth: the first is the start's own. */
function growth(memory: readonly number[]): number {
  const fifth = Math.floor(memory.length / 5);
  const middle = (part: readonly number[]): number => part.toSorted((a, b) => a - b)[part.length >> 1] ?? 0;
  const early = middle(memory.slice(fifth, 2 * fifth));
  return early === 0 ? 1 : middle(memory.slice(-fifth)) / early;
}
