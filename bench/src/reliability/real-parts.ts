/**
 * S5: the real parts together. Tablets (real replicas, on memory and on SQLite) log and sync over real HTTP through the
 * lossy proxy with a real server, which is killed and started again, and set back to an old backup; tablets are
 * restarted and destroyed. After it all the network heals, and everybody has to hold the same, and nothing that a
 * tablet could promise may be gone.
 *
 * A run is one campaign. Twenty share one server and its kills, as starting a process is what takes the time.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { createMemoryDisk, createMemoryStore, digest, openReplica, type Replica } from '@firnbook/journal';
import { type Random, seeded, streams } from '@firnbook/science/random';
import {
  backUp,
  campaignPaths,
  listBackups,
  lockFolder,
  openSqliteStore,
  restore,
  type SqliteStore,
  verifyJournal,
} from '@firnbook/storage/sqlite';
import { heldAt, newCampaign, outside, post, runLogged, sync } from './crew.ts';
import { type LossyProxy, startLossyProxy, type Trouble, type Troubles } from './lossy-proxy.ts';
import { type ServerProcess, startServerProcess } from './server-process.ts';

export interface RealParts {
  readonly runs: number;
  /** Runs in which an entry was gone, or the sides did not end with the same. */
  readonly violations: number;
  readonly entries: number;
  readonly kills: number;
  readonly restored: number;
  readonly destroyed: number;
  readonly exchanges: number;
  /** Exchanges that came to nothing: cut, stalled, refused. */
  readonly failed: number;
  readonly cuts: number;
  readonly replays: number;
}

export interface RealPartsPlan {
  readonly runs: number;
  readonly seed: number;
  readonly preload?: readonly string[];
}

/** How long a tablet waits for an answer, ms. */
const patience = 5000;
const together = 20;
const troubles: Troubles = { refuse: 0.05, cutUp: 0.2, cutDown: 0.2, delay: 0.3, stall: 0.05, replay: 0.25 };

type Tally = { -readonly [Name in keyof RealParts]: number };

export async function tryRealParts(plan: RealPartsPlan): Promise<RealParts> {
  const total: Tally = {
    ...{ runs: 0, violations: 0, entries: 0, kills: 0, restored: 0 },
    ...{ destroyed: 0, exchanges: 0, failed: 0, cuts: 0, replays: 0 },
  };
  for (let batch = 0; total.runs < plan.runs; batch += 1) {
    const folder = mkdtempSync(join(tmpdir(), 'firnbook-parts-'));
    try {
      const size = Math.min(together, plan.runs - total.runs);
      await tryTogether(folder, size, plan.seed * 10_000 + batch, plan.preload ?? [], total);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
  return total;
}

/** One campaign with its devices, and what they said to people. */
interface Run {
  readonly campaign: string;
  readonly random: Random;
  readonly devices: Device[];
  /** Hashes that a device which is still there ticked as "on this tablet". */
  readonly onTablet: Set<string>;
  /** Hashes that any device, also one that is no more, ticked as "on the camp computer" since it was last set back. */
  readonly onCamp: Set<string>;
}

/** A tablet: its replica, and how it goes on after it was switched off and on. */
interface Device {
  replica: Replica;
  readonly reopen: () => Promise<Replica>;
  readonly close: () => Promise<void>;
  readonly ticked: Set<string>;
  /** When it last got an answer. */
  heard: number;
}

async function tryTogether(
  folder: string,
  size: number,
  seed: number,
  preload: readonly string[],
  total: Tally,
): Promise<void> {
  const [own, ...each] = streams(seed, size + 1);
  const random = own ?? seeded(seed);
  const data = join(folder, 'data');
  const stick = join(folder, 'stick');
  const runs = await Promise.all(each.map((stream, index) => newRun(join(folder, `run-${index}`), stream)));
  // Also those that are destroyed: their files are closed at the end.
  const all = runs.flatMap((run) => run.devices);
  const proxy = await startLossyProxy({ seed, troubles, reach: 4000, lateness: 15, stallFor: 60 });
  let server: ServerProcess | null = null;
  const start = async (): Promise<void> => {
    server = startServerProcess(data, preload);
    proxy.aim(await server.address);
  };
  /** All work for a while; then the server is killed, in the middle of it. */
  const workUntilKilled = async (whenKilled: () => void = () => undefined): Promise<void> => {
    const sign = { isOver: false };
    const before = total.exchanges - total.failed;
    const work = runs.flatMap((run) =>
      run.devices.map((device) => useDevice(run, device, proxy, sign, total)),
    );
    // By exchanges that came through, so that a slow computer is tried as hard as a fast one.
    const enough = before + runs.length * (6 + 6 * random.uniform());
    while (total.exchanges - total.failed < enough && server?.isGone() === false) await pause(1);
    const killed = server?.kill();
    whenKilled();
    await killed;
    total.kills += 1;
    sign.isOver = true;
    await Promise.all(work);
  };

  try {
    await start();
    await workUntilKilled();
    for (const { campaign } of runs) await backUp(data, campaign, stick).catch(() => undefined);
    await start();
    await workUntilKilled();
    total.restored += await setBack(data, stick, runs);
    await start();
    await Promise.all(runs.map(restartTablets));
    // A tablet is destroyed at the moment when the power goes: what it had ticked as safe is on the camp computer.
    await workUntilKilled(() => {
      for (const run of runs) total.destroyed += destroyOne(run);
    });
    proxy.heal();
    await start();
    for (const run of runs) {
      const isSame = await heal(run, proxy.address).then(
        () => isWhole(run, proxy.address),
        () => false,
      );
      const verdict = verifyJournal(campaignPaths(data, run.campaign).journal);
      if (!isSame || !verdict.ok) total.violations += 1;
      total.entries += verdict.entries;
      total.runs += 1;
    }
    total.cuts += sum(proxy, ['refuse', 'cutUp', 'cutDown', 'stall']);
    total.replays += proxy.met.replay;
  } finally {
    await (server as ServerProcess | null)?.kill();
    await proxy.close();
    for (const device of all) await device.close();
  }
}

const sum = ({ met }: LossyProxy, names: readonly Trouble[]): number =>
  names.reduce((count, name) => count + met[name], 0);

async function newRun(folder: string, random: Random): Promise<Run> {
  const campaign = newCampaign();
  const file = join(folder, 'tablet.sqlite');
  const devices = [
    await memoryTabletOf(campaign),
    await memoryTabletOf(campaign),
    await sqliteTablet(file, campaign),
  ];
  return { campaign, random, devices, onTablet: new Set(), onCamp: new Set() };
}

async function memoryTabletOf(campaign: string): Promise<Device> {
  const disk = createMemoryDisk(newCampaign());
  const reopen = () => openReplica(createMemoryStore(campaign, disk), outside);
  return { replica: await reopen(), reopen, close: async () => undefined, ticked: new Set(), heard: 0 };
}

async function sqliteTablet(file: string, campaign: string): Promise<Device> {
  let store: SqliteStore | null = null;
  const reopen = async (): Promise<Replica> => {
    await store?.close();
    store = openSqliteStore(file, campaign);
    return openReplica(store, { ...outside, opened: store.handOver() });
  };
  return { replica: await reopen(), reopen, close: async () => store?.close(), ticked: new Set(), heard: 0 };
}

/** A person logs and the tablet syncs, until somebody says that it is over. */
async function useDevice(
  run: Run,
  device: Device,
  proxy: LossyProxy,
  sign: { readonly isOver: boolean },
  total: Tally,
): Promise<void> {
  while (!sign.isOver && run.devices.includes(device)) {
    const { replica } = device;
    const count = Math.floor(run.random.uniform() * 4);
    const written = await replica.write(
      Array.from({ length: count }, (_, step) => runLogged(replica.ledger.size + step)),
    );
    for (const { hash } of written) device.ticked.add(hash);
    total.exchanges += 1;
    try {
      await replica.hear('camp', await post(replica.ask('camp'), proxy.address, patience));
      device.heard = performance.now();
      const camp = replica.safety('camp');
      // Exactly what the screen ticks as "on the camp computer".
      for (const entry of replica.ledger.entries()) if (camp.holds(entry)) run.onCamp.add(entry.hash);
    } catch {
      total.failed += 1;
      await pause(20 + run.random.uniform() * 40);
    }
  }
}

/** The camp computer's disk is exchanged: it comes back as it was at the backup. */
async function setBack(data: string, stick: string, runs: readonly Run[]): Promise<number> {
  const lock = lockFolder(data, 'the test');
  let count = 0;
  try {
    for (const run of runs) {
      const [oldest] = listBackups(stick, run.campaign);
      if (oldest === undefined) continue;
      await restore(lock, oldest, true);
      run.onCamp.clear();
      count += 1;
    }
  } finally {
    lock.release();
  }
  return count;
}

/** Every tablet is switched off and on again. */
async function restartTablets(run: Run): Promise<void> {
  for (const device of run.devices) device.replica = await device.reopen();
}

/**
 * A tablet falls into a crevasse with all that was only on it: the one that got an answer last, as what it ticked as "on
 * the camp computer" has had the least time to get anywhere else. In two of three runs, and wherever it was just now.
 */
function destroyOne({ devices, random }: Run): number {
  const last = devices.reduce((a, b) => (b.heard > a.heard ? b : a));
  if (random.uniform() > 2 / 3 && performance.now() - last.heard > 40) return 0;
  devices.splice(devices.indexOf(last), 1);
  return 1;
}

/** Twice around: what the last one brought, the first has to be told. */
async function heal(run: Run, address: string): Promise<void> {
  for (const { replica, ticked } of run.devices) {
    for (const hash of ticked) run.onTablet.add(hash);
    for (const { hash } of replica.ledger.entries()) run.onTablet.add(hash);
  }
  for (let round = 0; round < 2; round += 1)
    for (const { replica } of run.devices) await sync(replica, address);
}

async function isWhole(run: Run, address: string): Promise<boolean> {
  const there = await heldAt(address, run.campaign);
  const isEqual = run.devices.every(({ replica }) => digest(replica.ledger) === there.digest);
  const { ledger } = run.devices[0]!.replica;
  const isThere = (hash: string): boolean => ledger.get(hash) !== undefined;
  return isEqual && [...run.onTablet].every(isThere) && [...run.onCamp].every(isThere);
}
