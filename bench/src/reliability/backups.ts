/**
 * D8: a camp computer is backed up again and again while its tablets write. Each backup is put back into an empty folder
 * and has to hold every entry that was acknowledged before it began. And the drill: how long it takes, by the command
 * that the handbook names, from a stick and an empty computer to a server that answers.
 */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  closeSync,
  copyFileSync,
  fstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { setTimeout as pause } from 'node:timers/promises';
import {
  backUp,
  campaignPaths,
  lockFolder,
  openSqliteStore,
  restore,
  verifyJournal,
} from '@firnbook/storage/sqlite';
import { season, seasonCampaign } from '../season.ts';
import { childCommand } from './child-command.ts';
import { heldAt, newCampaign } from './crew.ts';
import { startServerProcess } from './server-process.ts';

export interface Backups {
  readonly backups: number;
  /** Of those: that hold, put back, every entry acknowledged before they began, and check. */
  readonly complete: number;
  /** Entries acknowledged before the last began. */
  readonly acknowledged: number;
  /** Most entries that one of them lacked. */
  readonly mostMissing: number;
  /** Whether every byte was read back from the medium, past the computer's memory of it. */
  readonly isPastCache: boolean;
}

/** @param how 'copied': the control, the journal's file copied as most people would */
export async function backUpUnderLoad(count: number, how: 'ours' | 'copied'): Promise<Backups> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-backups-'));
  const data = join(folder, 'data');
  const campaign = newCampaign();
  const server = startServerProcess(data);
  let load: ChildProcess | null = null;
  const total = { backups: 0, complete: 0, acknowledged: 0, mostMissing: 0, isPastCache: true };
  const acknowledged = new Set<string>();
  try {
    const [command = '', ...args] = childCommand('load');
    load = spawn(command, [...args, await server.address, campaign, '60'], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    createInterface({ input: load.stdout! }).on('line', (hash) => acknowledged.add(hash));
    for (let round = 0; round < count; round += 1) {
      const enough = acknowledged.size + 6;
      while (acknowledged.size < enough) {
        if (load.exitCode !== null) throw new Error('the tablets stopped writing');
        await pause(5);
      }
      const before = [...acknowledged];
      const blank = join(folder, 'blank');
      const { held, isWhole, isPastCache } = await (how === 'ours'
        ? backUpAndRestore(data, campaign, join(folder, 'stick'), blank)
        : copyTheFile(data, campaign, blank));
      rmSync(blank, { recursive: true, force: true });
      const missing = before.filter((hash) => !held.has(hash)).length;
      total.backups += 1;
      if (missing === 0 && isWhole) total.complete += 1;
      total.acknowledged = before.length;
      total.mostMissing = Math.max(total.mostMissing, missing);
      total.isPastCache &&= isPastCache;
    }
    return total;
  } finally {
    load?.kill('SIGKILL');
    await server.kill();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface PutBack {
  readonly held: ReadonlySet<string>;
  readonly isWhole: boolean;
  readonly isPastCache: boolean;
}

async function backUpAndRestore(
  data: string,
  campaign: string,
  stick: string,
  blank: string,
): Promise<PutBack> {
  const backup = await backUp(data, campaign, stick);
  const lock = lockFolder(blank, 'the test');
  try {
    await restore(lock, backup.folder, false);
  } finally {
    lock.release();
  }
  const held = new Set<string>();
  const verdict = verifyJournal(campaignPaths(blank, campaign).journal, ({ hash }) => void held.add(hash));
  rmSync(stick, { recursive: true });
  const isWhole = verdict.ok && verdict.digest === backup.digest && verdict.entries === backup.entries;
  return { held, isWhole, isPastCache: backup.isPastCache === true };
}

async function copyTheFile(data: string, campaign: string, blank: string): Promise<PutBack> {
  const to = campaignPaths(blank, campaign);
  mkdirSync(to.folder, { recursive: true });
  copyFileSync(campaignPaths(data, campaign).journal, to.journal);
  const held = new Set<string>();
  const { ok } = verifyJournal(to.journal, ({ hash }) => void held.add(hash));
  return { held, isWhole: ok, isPastCache: false };
}

export interface Drill {
  readonly entries: number;
  /** From the command to the first answer that says what the server holds, seconds. */
  readonly seconds: number;
  readonly isSame: boolean;
  /** The control: whether a stick of which one byte was changed was refused. */
  readonly isDamageRefused: boolean;
}

/** A whole season on a stick, and a computer that has nothing. */
export async function drillRestore(entries: number): Promise<Drill> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-drill-'));
  const stick = join(folder, 'stick');
  try {
    const { journal } = campaignPaths(join(folder, 'old'), seasonCampaign);
    const store = openSqliteStore(journal, seasonCampaign);
    const rows = season(entries);
    for (let from = 0; from < rows.length; from += 5000) await store.append(rows.slice(from, from + 5000));
    await store.close();
    const backup = await backUp(join(folder, 'old'), seasonCampaign, stick);
    const begun = performance.now();
    const isBack = recover(stick, join(folder, 'new'));
    const server = startServerProcess(join(folder, 'new'));
    try {
      const there = await heldAt(await server.address, seasonCampaign);
      const seconds = (performance.now() - begun) / 1000;
      const isSame = isBack && there.digest === backup.digest && there.entries === entries;
      flipOneBit(join(backup.folder, 'journal.sqlite'));
      return { entries, seconds, isSame, isDamageRefused: !recover(stick, join(folder, 'newer')) };
    } finally {
      await server.kill();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The command that a person gives, in the words of the handbook. Whether it said that it went well. */
export function recover(stick: string, data: string): boolean {
  const [command = '', ...args] = childCommand('firnbook');
  return spawnSync(command, [...args, 'recover', stick, '--data', data]).status === 0;
}

function flipOneBit(file: string): void {
  const handle = openSync(file, 'r+');
  try {
    const at = Math.floor(fstatSync(handle).size / 2);
    const byte = Buffer.alloc(1);
    readSync(handle, byte, 0, 1, at);
    byte[0]! ^= 4;
    writeSync(handle, byte, 0, 1, at);
  } finally {
    closeSync(handle);
  }
}
