/**
 * D10: each release's frozen journal in a database of the oldest schema that was ever shipped, and an empty file, are
 * opened by today's program, which is killed at each of its writes, cuts, removals and flushes of the file. What lies
 * there then is at the old version or at the new one, never between, and the next start finds every entry.
 */
import { spawnSync } from 'node:child_process';
import { hash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { digestOf, type Sealed } from '@firnbook/journal';
import { openSqliteStore, verifyJournal } from '@firnbook/storage/sqlite';
import Database from 'better-sqlite3';
import { childCommand } from './child-command.ts';

export interface UpgradeKills {
  readonly journals: number;
  /** Kills, each at a call of its own. */
  readonly kills: number;
  /** Of those: while the file was still at the old version, and after it came to the new one. */
  readonly old: number;
  readonly new: number;
  /** Neither: a version that is not what its tables are, or a file that can't be read. */
  readonly between: number;
  /** Entries that the next start did not find, or that were not sound. */
  readonly lost: number;
}

export interface UpgradePlan {
  /** Every so many-th call alone; 1 for each. */
  readonly stride: number;
  readonly preload?: readonly string[];
}

interface Frozen {
  readonly entriesDigest: string;
  readonly entries: readonly Sealed[];
}

const journals = ['../../../demo/journals/', '../../../packages/journal/frozen/'].map(
  (folder) => new URL(folder, import.meta.url),
);
const calls = ['pwrite64', 'fdatasync', 'fsync', 'ftruncate', 'unlink'] as const;
const emptyDigest = digestOf([]);

/**
 * Schema 1 as release 0.1.0 laid it out, with its mark and its version. Frozen here: a file that old has to be made
 * without the program of today, which would make a newer one.
 */
const oldestSchema = `
  CREATE TABLE entries (
    position INTEGER PRIMARY KEY, hash TEXT NOT NULL UNIQUE, head TEXT NOT NULL, body TEXT, signature TEXT,
    trail TEXT NOT NULL
  ) STRICT;
  CREATE TRIGGER entries_are_never_changed BEFORE UPDATE ON entries
    BEGIN SELECT RAISE(ABORT, 'an entry is never changed: write a correction'); END;
  CREATE TRIGGER entries_are_never_removed BEFORE DELETE ON entries
    BEGIN SELECT RAISE(ABORT, 'an entry is never removed: write a withdrawal'); END;
  CREATE TABLE tail (one INTEGER PRIMARY KEY CHECK (one = 1), position INTEGER NOT NULL, trail TEXT NOT NULL) STRICT;
  CREATE TABLE notes (name TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT, WITHOUT ROWID;
  CREATE TABLE life (name TEXT PRIMARY KEY, text TEXT NOT NULL) STRICT, WITHOUT ROWID;
  PRAGMA application_id = ${0x4649524e};
  PRAGMA user_version = 1;
`;

export function killUpgrades(plan: UpgradePlan): UpgradeKills {
  const total = { journals: 0, kills: 0, old: 0, new: 0, between: 0, lost: 0 };
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-upgrade-'));
  try {
    for (const frozen of journals.flatMap(frozenIn)) {
      const campaign = String(
        (JSON.parse(frozen.entries[0]?.head ?? '{}') as { campaign?: string }).campaign,
      );
      const old = join(folder, 'old.sqlite');
      rmSync(old, { force: true });
      layOldest(old, campaign, frozen.entries);
      killAtEach({ from: old, campaign, digest: frozen.entriesDigest }, folder, plan, total);
      total.journals += 1;
    }
    const empty = join(folder, 'empty.sqlite');
    writeFileSync(empty, '');
    const campaign = '01930000-0000-7000-8000-0000000000ce';
    killAtEach({ from: empty, campaign, digest: emptyDigest }, folder, plan, total);
    return total;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Journals with their digest; a bare list of rows has none. */
function frozenIn(place: URL): readonly Frozen[] {
  const names = readdirSync(place).filter((name) => name.endsWith('.json'));
  const all = names.map(
    (name) => JSON.parse(readFileSync(new URL(name, place), 'utf8')) as Frozen | Sealed[],
  );
  return all.filter((one) => 'entriesDigest' in one);
}

/** The file as release 0.1.0 left it: after a checkpoint, in write-ahead mode. */
function layOldest(file: string, campaign: string, entries: readonly Sealed[]): void {
  const db = new Database(file);
  db.pragma('journal_mode = WAL');
  db.exec(oldestSchema);
  const life = db.prepare('INSERT INTO life VALUES (?, ?)');
  life.run('campaign', campaign);
  life.run('epoch', '2f6d3a52-5b0b-4c58-8d0e-6a1d3f9b7c11');
  const insert = db.prepare('INSERT INTO entries VALUES (?, ?, ?, ?, ?, ?)');
  let trail = '';
  db.transaction(() => {
    for (const [index, { hash: own, head, body, signature }] of entries.entries()) {
      const held = body === null ? 'withheld' : 'held';
      trail = hash('sha256', `${trail}\n${index + 1}\n${own}\n${held}\n${signature ?? ''}`);
      insert.run(index + 1, own, head, body, signature, trail);
    }
    db.prepare('INSERT INTO tail VALUES (1, ?, ?)').run(entries.length, trail);
  })();
  db.close();
}

interface Journal {
  readonly from: string;
  readonly campaign: string;
  readonly digest: string;
}

type Tally = { -readonly [Name in keyof UpgradeKills]: number };

function killAtEach(journal: Journal, folder: string, plan: UpgradePlan, total: Tally): void {
  const untouched = stateOf(journal.from);
  const whole = openTraced(journal, folder, plan, []);
  if (whole.status !== 0) throw new Error(`The journal does not open: ${whole.stderr}`);
  const upgraded = stateOf(whole.file);
  let point = 0;
  for (const call of calls) {
    for (let k = 1; k <= whole.counts[call]; k += 1) {
      point += 1;
      if (point % plan.stride > 0) continue;
      const { file } = openTraced(journal, folder, plan, ['-e', `inject=${call}:signal=SIGKILL:when=${k}`]);
      total.kills += 1;
      const state = stateOf(file);
      if (state === untouched) total.old += 1;
      else if (state === upgraded) total.new += 1;
      else total.between += 1;
      if (!opensWhole(file, journal)) total.lost += 1;
    }
  }
}

type Counts = Record<(typeof calls)[number], number>;

/** Opens a fresh copy of the journal under strace, which counts the calls on its files, or kills at one of them. */
function openTraced(
  journal: Journal,
  folder: string,
  { preload = [] }: UpgradePlan,
  more: readonly string[],
) {
  const place = join(folder, 'now');
  rmSync(place, { recursive: true, force: true });
  mkdirSync(place);
  const file = join(place, 'journal.sqlite');
  copyFileSync(journal.from, file);
  const trace = join(folder, 'trace');
  const only = ['', '-wal', '-shm', '-journal'].flatMap((end) => ['-P', file + end]);
  const strace = ['-f', '-e', `trace=${calls.join(',')}`, '-e', 'signal=none', '-o', trace, ...only, ...more];
  const open = childCommand('upgrade-open', preload);
  const done = spawnSync('strace', [...strace, ...open, file, journal.campaign], { encoding: 'utf8' });
  const lines = existsSync(trace) ? readFileSync(trace, 'utf8').split('\n') : [];
  const counts = Object.fromEntries(
    calls.map((call) => [call, lines.filter((line) => line.includes(` ${call}(`)).length]),
  ) as Counts;
  return { file, counts, status: done.status, stderr: done.stderr };
}

/** Version and tables of a file, as a reader sees them; what kills left in the log beside it is part of it. */
function stateOf(file: string): string {
  const copy = `${file}.look`;
  for (const end of ['', '-wal']) {
    rmSync(copy + end, { force: true });
    if (existsSync(file + end)) copyFileSync(file + end, copy + end);
  }
  let db: Database.Database | null = null;
  try {
    db = new Database(copy);
    const tables = db.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY name').all();
    return JSON.stringify([db.pragma('user_version'), db.pragma('application_id'), tables]);
  } catch (error) {
    return `unreadable: ${String(error)}`;
  } finally {
    db?.close();
    for (const end of ['', '-wal', '-shm']) rmSync(copy + end, { force: true });
  }
}

/** The next start, by the right program. */
function opensWhole(file: string, { campaign, digest }: Journal): boolean {
  try {
    void openSqliteStore(file, campaign).close();
    const verdict = verifyJournal(file);
    return verdict.ok && verdict.digest === digest;
  } catch {
    return false;
  }
}
