import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { seeded } from '@firnbook/science/random';
import { campaignPaths, verifyJournal } from '@firnbook/storage/sqlite';
import { childCommand } from './child-command.ts';
import { createDiskModel, damages } from './disk-model.ts';
import { type Operation, readTrace, traceArguments } from './trace.ts';

export interface PowerCuts {
  /** Disk images that were made and opened. */
  readonly states: number;
  /** Of those: with an acknowledged entry gone. */
  readonly lost: number;
  /** Of those: that can't be opened, or in which something is wrong. */
  readonly corrupt: number;
  readonly acknowledged: number;
  /** States of the damage "all lost" alone, and those of them with entries gone: what a control is measured by. */
  readonly plain: number;
  readonly plainLost: number;
}

export interface PowerCutPlan {
  readonly entries: number;
  readonly batch: number;
  readonly seed: number;
  /** States to try; all operations times all damages where there are fewer. */
  readonly states: number;
  /** Modules that make the store a wrong one: a control. */
  readonly preload?: readonly string[];
}

export const campaign = '01930000-0000-7000-8000-0000000000ce';

/** The command that runs the writer. */
export const writerCommand = (
  data: string,
  { entries, batch, seed, preload = [] }: Omit<PowerCutPlan, 'states'>,
): readonly string[] => [
  ...childCommand('writer', preload),
  ...[data, campaign, 'tablet-e', String(entries), String(batch), String(seed)],
];

/** A folder on a disk in memory where there is one: thousands of images are opened. */
const quickFolder = (): string =>
  mkdtempSync(join(existsSync('/dev/shm') ? '/dev/shm' : tmpdir(), 'firnbook-images-'));

/**
 * Records every write, flush and acknowledgement of the real store, then makes the disk images that a power cut at any
 * moment could have left, opens each and looks whether every acknowledged entry is there and sound.
 */
export function cutThePower(plan: PowerCutPlan): PowerCuts {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-cuts-'));
  try {
    const data = join(folder, 'data');
    const trace = join(folder, 'trace');
    const done = spawnSync('strace', [...traceArguments(trace), ...writerCommand(data, plan)], {
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
    });
    if (done.status !== 0) throw new Error(`The traced writer ended with ${done.status}: ${done.stderr}`);
    const { journal } = campaignPaths(data, campaign);
    const kept = [journal, `${journal}-wal`];
    const operations = readTrace(readFileSync(trace, 'latin1'), (path) => kept.includes(path));
    return tryStates(operations, basename(journal), plan);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export function tryStates(
  operations: readonly Operation[],
  journalName: string,
  plan: Pick<PowerCutPlan, 'seed' | 'states'>,
): PowerCuts {
  const random = seeded(plan.seed);
  const folder = quickFolder();
  const share = Math.min(1, plan.states / (operations.length * damages.length));
  const disk = createDiskModel();
  const tally = { states: 0, lost: 0, corrupt: 0, acknowledged: 0, plain: 0, plainLost: 0 };
  try {
    for (const operation of operations) {
      if (operation.do === 'ack') tally.acknowledged = operation.entries;
      else disk.apply(operation);
      for (const damage of damages) {
        if (random.uniform() >= share) continue;
        const outcome = openImage(folder, disk.afterCut(damage, random), journalName, tally.acknowledged);
        tally.states += 1;
        if (outcome === 'lost') tally.lost += 1;
        if (outcome === 'corrupt') tally.corrupt += 1;
        if (damage !== 'all lost' || tally.acknowledged === 0) continue;
        tally.plain += 1;
        if (outcome === 'lost') tally.plainLost += 1;
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return tally;
}

/** Opens what a power cut left, as the next start would. */
function openImage(
  folder: string,
  files: ReadonlyMap<string, Uint8Array>,
  journalName: string,
  acknowledged: number,
): 'whole' | 'lost' | 'corrupt' {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  for (const [path, bytes] of files) writeFileSync(join(folder, basename(path)), bytes);
  const journal = join(folder, journalName);
  // A cut before the file was laid out: the next start makes it, and nothing was acknowledged.
  if (!existsSync(journal)) return acknowledged === 0 ? 'whole' : 'lost';
  const verdict = verifyJournal(journal);
  if (verdict.entries < acknowledged)
    return verdict.findings.length > 0 && acknowledged === 0 ? 'corrupt' : 'lost';
  if (!verdict.ok && acknowledged > 0) return 'corrupt';
  return 'whole';
}
