import { copyFileSync, createReadStream, existsSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { trouble } from '../trouble.ts';
import { openAttachments } from './attachments.ts';
import { readBackup } from './backup.ts';
import { openForWriting } from './connection.ts';
import { flushFile, flushFolder, makeFolder } from './flush.ts';
import { campaignPaths } from './folder.ts';
import type { FolderLock } from './lock.ts';
import { beginNewLife, migrate } from './schema.ts';
import { verifyJournal } from './verify.ts';

export interface Restored {
  readonly campaign: string;
  readonly entries: number;
  readonly digest: string;
  /** Where the journal that lay there before was moved; null when there was none. */
  readonly setAside: string | null;
}

/**
 * Puts a backup into a data folder and starts another life of it: a new epoch, so that no peer takes old ticks
 * for granted, and no notes, so that whoever wrote here comes back as a new device. A campaign that already lies
 * there is moved aside, never deleted, and only when asked.
 *
 * @param lock proof that the data folder is ours
 * @param generation folder of one generation, as `listBackups` names it
 * @throws StoreTrouble 'damaged' or 'missing' (backup), 'refused' (a campaign lies there and `setAside` is false)
 */
export async function restore(lock: FolderLock, generation: string, setAside: boolean): Promise<Restored> {
  const record = await readBackup(generation);
  const place = campaignPaths(lock.folder, record.campaign);
  if (existsSync(place.folder) && !setAside)
    throw trouble(
      'refused',
      `Campaign ${record.campaign} is in this data folder already`,
      place.folder,
      'Restore into an empty folder, or ask for the present one to be set aside.',
    );
  const building = `${place.folder}.restoring-${process.pid}`;
  rmSync(building, { recursive: true, force: true });
  makeFolder(building);
  const journal = join(building, 'journal.sqlite');
  copyFileSync(join(generation, 'journal.sqlite'), journal);
  const db = openForWriting(journal);
  try {
    migrate(db, record.campaign);
    beginNewLife(db);
  } finally {
    db.close();
  }
  flushFile(journal);
  const attachments = openAttachments(join(building, 'attachments'));
  for (const name of record.attachments) {
    const from = createReadStream(join(generation, '..', 'attachments', name));
    await attachments.put(name, from, Number.POSITIVE_INFINITY);
  }
  const verdict = verifyJournal(journal);
  if (!verdict.ok || verdict.digest !== record.digest)
    throw trouble(
      'damaged',
      `The restored journal does not check${verdict.ok ? '' : `: ${verdict.findings[0]?.what}`}`,
      generation,
      'Use another generation.',
    );
  flushFolder(building);
  const aside = existsSync(place.folder) ? asideName(place.folder) : null;
  if (aside !== null) renameSync(place.folder, aside);
  renameSync(building, place.folder);
  flushFolder(join(place.folder, '..'));
  return { campaign: record.campaign, entries: record.entries, digest: record.digest, setAside: aside };
}

function asideName(folder: string): string {
  for (let number = 1; ; number += 1) {
    const name = `${folder}.aside-${number}`;
    if (!existsSync(name)) return name;
  }
}
