/**
 * D7: a journal's file is damaged as disks and sticks do it: single bits, whole sectors, pages in each other's place, an
 * end that is gone. Every damage that changes what a reader gets has to be found by the check that every start makes,
 * and the entry named. The control is the database's own check of its structure alone, as most programs trust it.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { digest, openReplica } from '@firnbook/journal';
import { type Random, seeded } from '@firnbook/science/random';
import { openSqliteStore, verifyJournal } from '@firnbook/storage/sqlite';
import Database from 'better-sqlite3';
import { season, seasonCampaign } from '../season.ts';
import { outside } from './crew.ts';

export interface BitFlips {
  readonly damages: number;
  /** Of those: after which a reader gets something else, or nothing. */
  readonly changed: number;
  /** Of those: that the check of a start found. */
  readonly detected: number;
  /** Damages that left every row readable and changed one at a place that can be told. */
  readonly nameable: number;
  /** Of those: with that row among the findings. */
  readonly named: number;
  /** Of those that changed something: that the database's own check found. The control. */
  readonly byStructureAlone: number;
}

const sector = 512;
const page = 4096;

const flipBit = (sound: Buffer, random: Random): Buffer => {
  const bytes = Buffer.from(sound);
  const at = below(random, bytes.length);
  bytes.writeUInt8(bytes.readUInt8(at) ^ (1 << below(random, 8)), at);
  return bytes;
};

const wipeSector = (sound: Buffer, random: Random): Buffer => {
  const bytes = Buffer.from(sound);
  const at = below(random, Math.floor(bytes.length / sector)) * sector;
  // Flash that lost a block reads as zeros, or as ones.
  bytes.fill(random.uniform() < 0.5 ? 0 : 0xff, at, at + sector);
  return bytes;
};

const swapPages = (sound: Buffer, random: Random): Buffer => {
  const bytes = Buffer.from(sound);
  const count = Math.floor(bytes.length / page);
  const [a, b] = [below(random, count) * page, below(random, count) * page];
  sound.copy(bytes, a, b, b + page);
  sound.copy(bytes, b, a, a + page);
  return bytes;
};

const cutOff = (sound: Buffer, random: Random): Buffer =>
  Buffer.from(sound.subarray(0, below(random, sound.length)));

/** Sixteen in twenty are single bits, as the target counts them. */
const damageOf = (step: number): ((sound: Buffer, random: Random) => Buffer) => {
  if (step % 20 === 5) return wipeSector;
  if (step % 20 === 10) return swapPages;
  if (step % 20 === 15) return cutOff;
  return step % 20 === 19 ? wipeSector : flipBit;
};

const below = (random: Random, limit: number): number => Math.floor(random.uniform() * limit);

/** Damages a journal of 80 entries from three devices, again and again, each time from the sound file. */
export async function damageJournal(damages: number, seed: number): Promise<BitFlips> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-flips-'));
  const total = { damages, changed: 0, detected: 0, nameable: 0, named: 0, byStructureAlone: 0 };
  try {
    const file = join(folder, 'journal.sqlite');
    const store = openSqliteStore(file, seasonCampaign);
    await store.append(season(80));
    await store.close();
    const sound = readFileSync(file);
    const before = contentOf(file);
    const random = seeded(seed);
    const damaged = join(folder, 'damaged.sqlite');
    for (let step = 0; step < damages; step += 1) {
      writeFileSync(damaged, damageOf(step)(sound, random));
      const after = contentOf(damaged);
      const place = before.findIndex((row, index) => row !== after[index]);
      if (place < 0 && after.length === before.length) continue;
      total.changed += 1;
      const { ok, findings } = verifyJournal(damaged);
      if (!ok) total.detected += 1;
      if (!isStructureSound(damaged)) total.byStructureAlone += 1;
      // A row that can't be read any more has no name; one that reads differently must be told by place.
      if (after.length !== before.length) continue;
      total.nameable += 1;
      if (findings.some(({ position }) => position === place + 1)) total.named += 1;
    }
    return total;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every row that a reader gets from the file, up to the first that it can't have. */
function contentOf(file: string): readonly string[] {
  const rows: string[] = [];
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true });
    const all = db.prepare('SELECT position, hash, head, body, signature FROM entries ORDER BY position');
    for (const row of all.iterate()) rows.push(JSON.stringify(row));
  } catch {
    // What was read until here is the content.
  } finally {
    db?.close();
  }
  return rows;
}

function isStructureSound(file: string): boolean {
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true });
    return db.pragma('integrity_check', { simple: true }) === 'ok';
  } catch {
    return false;
  } finally {
    db?.close();
  }
}

export interface StartCheck {
  readonly entries: number;
  /** From the closed file to a replica that is ready: structure, every hash, every chain. Wall clock, ms. */
  readonly ms: number;
  /** The same in processor time, which others on this machine do not change. ms */
  readonly processorMs: number;
}

/** How long the check at every start takes for a whole season. */
export async function timeStartCheck(entries: number): Promise<StartCheck> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-start-'));
  try {
    const file = join(folder, 'journal.sqlite');
    const filled = openSqliteStore(file, seasonCampaign);
    const rows = season(entries);
    for (let from = 0; from < rows.length; from += 5000) await filled.append(rows.slice(from, from + 5000));
    await filled.close();
    const [begun, spent] = [performance.now(), processor()];
    const store = openSqliteStore(file, seasonCampaign);
    const replica = await openReplica(store, { ...outside, opened: store.handOver() });
    const took = { ms: performance.now() - begun, processorMs: processor() - spent };
    if (replica.ledger.size !== entries || digest(replica.ledger) === '') throw new Error('not all is there');
    await store.close();
    return { entries, ...took };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function processor(): number {
  const { system, user } = process.cpuUsage();
  return (system + user) / 1000;
}
