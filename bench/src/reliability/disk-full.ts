/**
 * D6: the camp computer's disk is filled by another program, over and over, on file systems of a few megabytes. Entries
 * go into the reserve, then are refused with words; what was acknowledged is never lost, reading goes on, writing goes
 * on by itself when there is room, and a start without a single free byte works.
 */
import { spawnSync } from 'node:child_process';
import { closeSync, mkdirSync, mkdtempSync, openSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { digest, type Replica } from '@firnbook/journal';
import { seeded } from '@firnbook/science/random';
import { type Server, startServer } from '@firnbook/server';
import { campaignPaths, verifyJournal } from '@firnbook/storage/sqlite';
import { heldAt, memoryTablet, newCampaign, post, Refusal, runLogged, sync } from './crew.ts';

type SmallDisk = 'tmpfs' | 'ext4';

export interface DiskFull {
  /** Times that the disk was filled to the last byte. */
  readonly fills: number;
  readonly acknowledged: number;
  readonly lost: number;
  /** Refusals with status 507. */
  readonly refused: number;
  /** Answers on a full disk that were neither an acknowledgement nor a 507. */
  readonly otherAnswers: number;
  /** Times that the full server could not say what it holds. */
  readonly unread: number;
  /** Times that a server with room again did not take entries without being started anew. */
  readonly stuck: number;
  /** Starts with not one free byte. */
  readonly coldStarts: number;
  /** Of those: that did not come up, or not with all entries. */
  readonly coldFailures: number;
}

export interface DiskFullPlan {
  readonly fills: number;
  readonly seed: number;
  readonly on: SmallDisk;
  /** The control: without the reserve that the server lays, a cold start can't be. */
  readonly withoutReserve?: boolean;
}

/** Room for the reserve to be laid again (128 MB must be free), and for a journal. */
const megabytes = 208;

const ran = (command: string, ...args: readonly string[]): boolean =>
  spawnSync(command, args, { stdio: 'ignore' }).status === 0;

function mount(folder: string, on: SmallDisk): string {
  const place = join(folder, 'disk');
  mkdirSync(place);
  if (on === 'tmpfs') {
    if (!ran('mount', '-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', place))
      throw new Error('No disk in memory could be mounted.');
    return place;
  }
  const image = join(folder, 'disk.img');
  // No blocks are kept back for root: the test runs as root, a camp computer does not.
  const isMade =
    ran('truncate', '-s', `${megabytes}M`, image) &&
    ran('mkfs.ext4', '-q', '-F', '-m', '0', image) &&
    ran('mount', '-o', 'loop', image, place);
  if (!isMade) throw new Error('No image of a disk could be mounted.');
  return place;
}

const freeBytes = (disk: string): number => {
  const { bavail, bsize } = statfsSync(disk);
  return bavail * bsize;
};

/** Another program's file takes every byte that is left. */
function fill(disk: string, name: string): void {
  const file = openSync(join(disk, name), 'a');
  try {
    for (const size of [1 << 20, 1 << 16, 1 << 12, 1 << 9]) takeRoom(disk, file, Buffer.alloc(size, 0x5a));
  } finally {
    closeSync(file);
  }
}

/** Until the disk has no room for another such piece: ext4 refuses a large one where smaller ones still fit. */
function takeRoom(disk: string, file: number, piece: Buffer): void {
  try {
    while (freeBytes(disk) > 0) if (writeSync(file, piece) < piece.length) return;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
  }
}

type Tally = { -readonly [Name in keyof DiskFull]: number };

export async function fillTheDisk(plan: DiskFullPlan): Promise<DiskFull> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-full-'));
  const total: Tally = {
    ...{ fills: 0, acknowledged: 0, lost: 0, refused: 0, otherAnswers: 0 },
    ...{ unread: 0, stuck: 0, coldStarts: 0, coldFailures: 0 },
  };
  const disk = mount(folder, plan.on);
  try {
    const camp = await openCampOn(disk, folder, plan);
    for (let round = 0; total.fills < plan.fills; round += 1) {
      if (round % 2 === 1) await startCold(camp, total);
      else await fillWhileItRuns(camp, total);
    }
    await camp.server.close();
    const held = new Set<string>();
    const verdict = verifyJournal(campaignPaths(camp.data, camp.device.campaign).journal, ({ hash }) => {
      held.add(hash);
    });
    total.acknowledged = camp.acknowledged.size;
    total.lost = [...camp.acknowledged].filter((hash) => !held.has(hash)).length;
    if (!verdict.ok) total.lost += 1;
    return total;
  } finally {
    ran('umount', disk) || ran('umount', '-l', disk);
    rmSync(folder, { recursive: true, force: true });
  }
}

interface Camp {
  readonly disk: string;
  readonly data: string;
  readonly device: Replica;
  readonly acknowledged: Set<string>;
  readonly start: () => Promise<Server>;
  /** How many entries a person writes at once. */
  readonly some: () => number;
  readonly dropReserve: () => void;
  server: Server;
}

async function openCampOn(disk: string, webFolder: string, plan: DiskFullPlan): Promise<Camp> {
  const random = seeded(plan.seed);
  const data = join(disk, 'data');
  const start = (): Promise<Server> =>
    startServer({ dataFolder: data, webFolder, port: 0, log: () => undefined });
  const camp: Camp = {
    ...{ disk, data, acknowledged: new Set<string>(), start },
    device: await memoryTablet(newCampaign()),
    some: () => 100 + Math.floor(random.uniform() * 300),
    dropReserve: () => {
      if (plan.withoutReserve === true) rmSync(join(data, 'ballast'), { force: true });
    },
    server: await start(),
  };
  await write(camp, 1);
  await sync(camp.device, camp.server.address);
  return camp;
}

const write = async ({ device }: Camp, count: number): Promise<void> =>
  void (await device.write(Array.from({ length: count }, (_, step) => runLogged(device.ledger.size + step))));

function noteTicks({ device, acknowledged }: Camp): void {
  const there = device.safety('camp');
  for (const entry of device.ledger.entries()) if (there.holds(entry)) acknowledged.add(entry.hash);
}

/** Into the reserve, then beyond it, then with room again: the server is the same all the time. */
async function fillWhileItRuns(camp: Camp, total: Tally): Promise<void> {
  const { device, disk } = camp;
  const names: string[] = [];
  let isRefused = false;
  for (let step = 0; !isRefused && step < 6; step += 1) {
    names.push(`other-${step}`);
    fill(disk, `other-${step}`);
    total.fills += 1;
    await write(camp, camp.some());
    try {
      await device.hear('camp', await post(device.ask('camp'), camp.server.address));
    } catch (error) {
      isRefused = error instanceof Refusal && error.status === 507 && error.message.includes('disk is full');
      if (isRefused) total.refused += 1;
      else total.otherAnswers += 1;
    }
    noteTicks(camp);
    const held = await heldAt(camp.server.address, device.campaign).catch(() => null);
    if (held === null || held.entries < camp.acknowledged.size) total.unread += 1;
  }
  for (const name of names) rmSync(join(disk, name));
  try {
    await sync(device, camp.server.address);
  } catch {
    total.stuck += 1;
  }
  noteTicks(camp);
}

/** With room the reserve is laid at the start; then the disk is filled, and the next start has nothing at all. */
async function startCold(camp: Camp, total: Tally): Promise<void> {
  const { device, disk } = camp;
  await camp.server.close();
  camp.server = await camp.start();
  await camp.server.close();
  camp.dropReserve();
  fill(disk, 'other-cold');
  total.fills += 1;
  total.coldStarts += 1;
  if (freeBytes(disk) > 0) throw new Error('The disk could not be filled to the last byte.');
  try {
    camp.server = await camp.start();
    const held = await heldAt(camp.server.address, device.campaign);
    if (held.digest !== digest(device.ledger)) throw new Error('not all is there');
    await write(camp, 5);
    await sync(device, camp.server.address);
  } catch {
    total.coldFailures += 1;
  }
  noteTicks(camp);
  rmSync(join(disk, 'other-cold'));
  await camp.server.close().catch(() => undefined);
  camp.server = await camp.start();
}
