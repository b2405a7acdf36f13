import {
  createReadStream,
  existsSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { createLedger, type Entry, type Have, haveOf } from '@firnbook/journal';
import { isTrouble, trouble } from '../trouble.ts';
import { digestOfFile, openAttachments } from './attachments.ts';
import { type Connection, openForReading } from './connection.ts';
import { flushFile, flushFolder, makeFolder } from './flush.ts';
import { campaignPaths, isCampaignId } from './folder.ts';
import { generationName, generationsOf } from './generations.ts';
import { openPlainCopy } from './plain-copy.ts';
import { type ReadBack, readBack } from './read-back.ts';
import { holdToOurs } from './schema.ts';
import { verifyJournal } from './verify.ts';

/** What lies beside a backup's journal: enough to know later that it is whole. */
export interface BackupRecord {
  readonly product: 'firnbook';
  readonly backup: 1;
  readonly campaign: string;
  /** 1, 2, 3 ... in the target folder. */
  readonly generation: number;
  /** ISO 8601, UTC, of this computer's clock. */
  readonly madeAt: string;
  readonly entries: number;
  /** SHA-256 over the sorted hashes of the entries: compare it with what a tablet shows. */
  readonly digest: string;
  /** SHA-256 of journal.sqlite. */
  readonly journal: string;
  readonly attachments: readonly string[];
  /** The last entry of every device: what a tick "on a second medium" rests on. Absent in backups of older builds. */
  readonly heads?: Have;
  /** SHA-256 of entries.jsonl, the same entries for people and other programs. */
  readonly plain?: string;
  /** Whether it was read back from the medium itself, past the computer's memory of what was written. */
  readonly isPastCache?: boolean;
}

export interface Backup extends BackupRecord {
  readonly folder: string;
  /** Attachments that are damaged at the source and so could not be copied. */
  readonly damaged: readonly string[];
}

/**
 * Copies one campaign as it is at this moment, also while a server writes into it, and reads the copy back from
 * the target: structure, every hash and chain, the running digest at its last row against the source's, and the
 * bytes once more from the medium itself.
 *
 * Layout: TARGET/<campaign>/generation-0001/{journal.sqlite, backup.json, entries.jsonl, READ-ME.txt} and, shared by
 * all generations, TARGET/<campaign>/attachments/<sha256>. A new generation each time; nothing there is ever overwritten.
 *
 * @throws StoreTrouble 'missing' without such a campaign, 'damaged' when the source or the copy doesn't check
 */
export async function backUp(dataFolder: string, campaign: string, target: string): Promise<Backup> {
  const source = campaignPaths(dataFolder, campaign);
  if (!existsSync(source.journal))
    throw trouble(
      'missing',
      `There is no campaign ${campaign}`,
      dataFolder,
      'See the list with: firnbook state.',
    );
  const shelf = join(target, campaign);
  makeFolder(shelf);
  const generation = Math.max(0, ...generationsOf(shelf)) + 1;
  const folder = join(shelf, generationName(generation));
  const unfinished = `${folder}.unfinished-${process.pid}`;
  makeFolder(unfinished);
  try {
    const journal = join(unfinished, 'journal.sqlite');
    copyJournal(source.journal, journal);
    const plain = openPlainCopy(unfinished);
    const entries: Entry[] = [];
    const verdict = verifyJournal(journal, (entry) => {
      plain.write(entry);
      entries.push(entry);
    });
    const madeAt = new Date().toISOString();
    const plainFile = plain.finish(campaign, verdict.entries, verdict.digest, madeAt);
    const found = verdict.findings[0];
    if (found !== undefined)
      throw trouble(
        'damaged',
        `The copy does not check: ${found.what}`,
        found.where,
        'Verify the source, and try another medium.',
      );
    holdToSource(source.journal, verdict.entries, verdict.trail, journal);
    const { held, damaged } = await copyAttachments(source.attachments, join(shelf, 'attachments'));
    const journalBack = await readTwice(journal);
    const plainBack = await readTwice(plainFile);
    const record: BackupRecord = {
      product: 'firnbook',
      backup: 1,
      campaign,
      generation,
      madeAt,
      entries: verdict.entries,
      digest: verdict.digest,
      journal: journalBack.sha256,
      attachments: held,
      heads: headsOf(entries),
      plain: plainBack.sha256,
      isPastCache: journalBack.isPastCache && plainBack.isPastCache,
    };
    const note = join(unfinished, 'backup.json');
    writeFileSync(note, `${JSON.stringify(record, null, 2)}\n`, { flag: 'wx' });
    flushFile(note);
    flushFolder(unfinished);
    renameSync(unfinished, folder);
    flushFolder(shelf);
    return { ...record, folder, damaged };
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true });
    throw error;
  }
}

/**
 * Reads the record of a backup and checks that journal and attachments are still what it says.
 *
 * @throws StoreTrouble 'missing' or 'damaged'
 */
export async function readBackup(folder: string): Promise<BackupRecord> {
  const record = backupRecord(folder);
  const journal = join(folder, 'journal.sqlite');
  const mend = 'Use another generation, or the other stick.';
  if (!existsSync(journal)) throw trouble('missing', 'The journal of this backup is gone', journal, mend);
  if ((await digestOfFile(journal)) !== record.journal)
    throw trouble('damaged', 'The journal of this backup was changed since it was made', journal, mend);
  const attachments = openAttachments(join(folder, '..', 'attachments'));
  for (const name of record.attachments) {
    const state = await attachments.state(name);
    if (state !== 'held')
      throw trouble('damaged', `Attachment ${name} is ${state}`, attachments.folder, mend);
  }
  return record;
}

/** Folders of the finished generations of a campaign on a backup medium, oldest first. */
export function listBackups(target: string, campaign: string): readonly string[] {
  const shelf = join(target, campaign);
  return generationsOf(shelf).map((number) => join(shelf, generationName(number)));
}

/** Campaigns of which a medium holds finished generations, sorted. */
export function backedUpCampaigns(target: string): readonly string[] {
  if (!existsSync(target)) return [];
  return readdirSync(target)
    .filter((name) => isCampaignId(name) && generationsOf(join(target, name)).length > 0)
    .sort();
}

/**
 * What a generation says of itself; nothing of it is checked.
 *
 * @throws StoreTrouble 'missing' or 'newer version'
 */
export function backupRecord(folder: string): BackupRecord {
  const file = join(folder, 'backup.json');
  try {
    const record = JSON.parse(readFileSync(file, 'utf8')) as BackupRecord;
    if (record.product === 'firnbook' && record.backup === 1) return record;
    throw trouble(
      'newer version',
      'This program does not know this kind of backup',
      file,
      'Use a newer program.',
    );
  } catch (error) {
    if (isTrouble(error)) throw error;
    throw trouble(
      'missing',
      'This is no finished backup',
      file,
      'Name a folder called generation-0001 or the like.',
    );
  }
}

/** VACUUM INTO reads one moment of a live journal; copying the files would not. */
function copyJournal(from: string, to: string): void {
  const db = openForReading(from);
  try {
    holdToOurs(db);
    db.prepare('VACUUM INTO ?').run(to);
  } finally {
    db.close();
  }
  flushFile(to);
}

/** The bytes as the computer remembers them and as the medium has them must be the same. */
async function readTwice(file: string): Promise<ReadBack> {
  const remembered = await digestOfFile(file);
  const back = readBack(file);
  if (back.sha256 !== remembered)
    throw trouble('damaged', 'The medium holds something else than was written', file, 'Try another medium.');
  return back;
}

function headsOf(entries: readonly Entry[]): Have {
  const ledger = createLedger();
  ledger.add(entries);
  return haveOf(ledger);
}

/** Equal running digests at the copy's last row mean equal rows up to there. */
function holdToSource(source: string, entries: number, trail: string, copy: string): void {
  const db: Connection = openForReading(source);
  try {
    const there = db.prepare('SELECT trail FROM entries WHERE position = ?').pluck().get(entries);
    if ((there ?? '') !== trail)
      throw trouble('damaged', 'The copy is not what the journal holds', copy, 'Try another medium.');
  } finally {
    db.close();
  }
}

async function copyAttachments(from: string, to: string) {
  const source = openAttachments(from);
  const target = openAttachments(to);
  const held: string[] = [];
  const damaged: string[] = [];
  for (const name of source.list()) {
    if ((await target.state(name)) !== 'held') {
      if ((await source.state(name)) === 'damaged') {
        damaged.push(name);
        continue;
      }
      await target.put(name, createReadStream(join(from, name)), Number.POSITIVE_INFINITY);
      if ((await target.state(name)) !== 'held')
        throw trouble('damaged', `Attachment ${name} did not read back`, to, 'Try another medium.');
    }
    held.push(name);
  }
  return { held, damaged };
}
