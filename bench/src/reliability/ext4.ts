import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { seeded } from '@firnbook/science/random';
import { campaignPaths, verifyJournal } from '@firnbook/storage/sqlite';
import { campaign, writerCommand } from './power-cut.ts';

export interface Ext4Cuts {
  readonly rounds: number;
  /** Rounds in which an acknowledged entry was gone, or something was wrong. */
  readonly lostRounds: number;
  readonly acknowledged: number;
}

export interface Ext4Plan {
  readonly rounds: number;
  readonly seed: number;
  readonly preload?: readonly string[];
}

const imageMegabytes = 48;

const ran = (command: string, args: readonly string[]): boolean =>
  spawnSync(command, args, { stdio: 'ignore' }).status === 0;

/** Whether this machine lets us mount an image of a disk: root, and a kernel with loop devices. */
export function canMount(): boolean {
  if (process.getuid?.() !== 0 || process.platform !== 'linux') return false;
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-mount-'));
  try {
    const disk = newDisk(folder);
    if (!mount(disk, folder, 'here')) return false;
    ran('umount', [join(folder, 'here')]);
    return true;
  } catch {
    return false;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/**
 * The real store on a real ext4: the writer is stopped at any moment, what its disk holds then is copied, and the copy
 * is mounted (the file system replays its own journal) and looked at.
 */
export async function cutExt4(plan: Ext4Plan): Promise<Ext4Cuts> {
  const random = seeded(plan.seed);
  const total = { rounds: 0, lostRounds: 0, acknowledged: 0 };
  for (let round = 0; round < plan.rounds; round += 1) {
    const folder = mkdtempSync(join(tmpdir(), 'firnbook-ext4-'));
    try {
      const { acknowledged, isLost } = await cutOnce(folder, plan, 300 + 500 * random.uniform(), round);
      total.rounds += 1;
      total.acknowledged += acknowledged;
      if (isLost) total.lostRounds += 1;
    } finally {
      for (const place of ['here', 'after']) ran('umount', [join(folder, place)]);
      rmSync(folder, { recursive: true, force: true });
    }
  }
  return total;
}

async function cutOnce(folder: string, plan: Ext4Plan, milliseconds: number, round: number) {
  const disk = newDisk(folder);
  if (!mount(disk, folder, 'here')) throw new Error('The disk image could not be mounted.');
  const data = join(folder, 'here', 'data');
  const [command = '', ...args] = writerCommand(data, {
    entries: 100_000,
    batch: 4,
    ...plan,
    seed: plan.seed + round,
  });
  const child = spawn(command, args, { stdio: ['ignore', 'pipe', 'inherit'] });
  let said = '';
  child.stdout.on('data', (chunk) => {
    said += String(chunk);
  });
  const acknowledged = () => {
    const whole = said.slice(0, said.lastIndexOf('\n') + 1);
    return Number(/^ack (\d+)/.exec(whole.slice(whole.lastIndexOf('ack ')))?.[1] ?? 0);
  };
  while (acknowledged() === 0 && child.exitCode === null) await pause(5);
  await pause(milliseconds);
  child.kill('SIGSTOP');
  // what it said before it was stopped is on its way through the pipe
  await pause(30);
  const told = acknowledged();
  const image = join(folder, 'after.img');
  copyFileSync(disk, image);
  child.kill('SIGKILL');
  if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
  if (!mount(image, folder, 'after')) return { acknowledged: told, isLost: true };
  const verdict = verifyJournal(campaignPaths(join(folder, 'after', 'data'), campaign).journal);
  return { acknowledged: told, isLost: !verdict.ok || verdict.entries < told };
}

function newDisk(folder: string): string {
  const disk = join(folder, 'disk.img');
  if (!ran('truncate', ['-s', `${imageMegabytes}M`, disk]) || !ran('mkfs.ext4', ['-q', '-F', disk]))
    throw new Error('No disk image could be made.');
  return disk;
}

function mount(image: string, folder: string, name: string): boolean {
  const place = join(folder, name);
  mkdirSync(place, { recursive: true });
  return ran('mount', ['-o', 'loop', image, place]);
}
