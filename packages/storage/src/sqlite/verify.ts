import { hash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { digestOf, type Opened, reopen, type Sealed } from '@firnbook/journal';
import { peek } from '../admit.ts';
import { isTrouble } from '../trouble.ts';
import { type Connection, openForReading } from './connection.ts';
import { ioTrouble, isCircumstance } from './io-trouble.ts';
import { campaignOf, epochOf, holdToOurs, schemaVersion, versionOf } from './schema.ts';
import { nextTrail } from './trail.ts';

/** One thing that is wrong with a journal file, named as closely as the file still allows. */
export interface Finding {
  readonly what: string;
  /** Row, entry and file, in words. */
  readonly where: string;
  readonly mend: string;
  /** Row in order of arrival, from 1; null where no row can be named. */
  readonly position: number | null;
  readonly hash: string | null;
  /** The entry's id as its head says; null where the head isn't readable. */
  readonly id: string | null;
}

export interface Verdict {
  readonly file: string;
  readonly ok: boolean;
  readonly campaign: string | null;
  readonly epoch: string | null;
  /** Rows read. */
  readonly entries: number;
  /** Entries whose body isn't there: nothing wrong in a published copy, worth a question in a camp's own. */
  readonly withheld: number;
  /** SHA-256 over the sorted hashes of all entries: equal on every device that holds the same set. */
  readonly digest: string;
  /** Running digest at the last row. */
  readonly trail: string;
  readonly findings: readonly Finding[];
}

/** A row as stored. */
export interface Row extends Sealed {
  readonly position: number;
  readonly trail: string;
}

const repair =
  'Keep the file as it is. Restore the newest good backup, then let the tablets sync: what they hold comes back.';

/**
 * Reads a whole journal without changing it and says everything that is wrong: the database's own structure,
 * every hash, every device's chain, and rows that are gone, moved or cut off.
 * What it can't see is a file exchanged for an older one that was sound: compare the digest with the tablets'.
 *
 * @throws StoreTrouble 'disk full' or 'unknown fate' where the disk, not the file, keeps it from being read
 */
export function verifyJournal(file: string): Verdict {
  const findings: Finding[] = [];
  const report: Report = (what, place = {}) => findings.push(finding(file, what, place));
  const empty = {
    file,
    campaign: null,
    epoch: null,
    entries: 0,
    withheld: 0,
    digest: digestOf([]),
    trail: '',
  };
  if (!existsSync(file)) {
    report('The journal file is not there');
    return { ...empty, ok: false, findings };
  }
  let db: Connection | null = null;
  try {
    db = openForReading(file);
    holdToOurs(db);
    if (versionOf(db) < schemaVersion) {
      // An older or just created file is sound as far as can be told; opening it for writing migrates it.
      return { ...empty, ok: true, findings };
    }
    checkStructure(db, report);
    const read = checkRows(db, report);
    return {
      file,
      ok: findings.length === 0,
      campaign: campaignOf(db),
      epoch: epochOf(db),
      ...read,
      findings,
    };
  } catch (error) {
    if (isCircumstance(error)) throw ioTrouble(error, file);
    report(isTrouble(error) ? error.what : `The file can't be read further: ${words(error)}`);
    return { ...empty, ok: false, findings };
  } finally {
    db?.close();
  }
}

/** Rows one by one in order of arrival; ends early and tells `broken` when the file can't be read further. */
export function* rowsOf(db: Connection, broken: (error: unknown) => void): Generator<Row> {
  try {
    const all = db.prepare(
      'SELECT position, hash, head, body, signature, trail FROM entries ORDER BY position',
    );
    for (const row of all.iterate()) yield row as Row;
  } catch (error) {
    if (isCircumstance(error)) throw error;
    broken(error);
  }
}

type Report = (what: string, place?: Partial<Row>) => void;

function checkStructure(db: Connection, report: Report): void {
  const lines = db.pragma('integrity_check', { simple: false }) as readonly { integrity_check: string }[];
  for (const line of lines)
    if (line.integrity_check !== 'ok') report(`The database is damaged: ${line.integrity_check}`);
  const guards = db
    .prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'entries'")
    .pluck()
    .get();
  if (guards !== 2) report('The guard against changing entries was removed from the file');
}

function checkRows(db: Connection, report: Report) {
  const sequences = new Map<string, number>();
  const devices = new Map<string, string>();
  let before: Row | null = null;
  let withheld = 0;
  const broken = (error: unknown) =>
    report(`The rows after ${before?.position ?? 0} can't be read: ${words(error)}`);
  for (const row of rowsOf(db, broken)) {
    const expected = (before?.position ?? 0) + 1;
    if (row.position !== expected) report(gap(expected, row.position - 1), { position: expected });
    const opened = openRow(row);
    if (!opened.ok) report(`The entry is damaged: ${opened.problem}`, row);
    else {
      const { header } = opened.entry;
      const held = header.previous === null ? 0 : sequences.get(header.previous);
      if (header.previous !== null && (held === undefined || devices.get(header.previous) !== header.device))
        report('The entry before it on the same device is gone', row);
      else if (header.sequence !== (held ?? 0) + 1) report('Its number on the device does not follow', row);
      sequences.set(row.hash, header.sequence);
      devices.set(row.hash, header.device);
      // A damaged or missing row breaks the trail behind it too; only the first place is news.
      if (row.position === expected && row.trail !== nextTrail(before?.trail ?? '', row.position, row))
        report('The row was changed, or the row before it was', row);
    }
    if (row.body === null) withheld += 1;
    before = row;
  }
  const tail = db.prepare('SELECT position, trail FROM tail').get() as { position: number; trail: string };
  const last = before?.position ?? 0;
  if (last < tail.position) report(gap(last + 1, tail.position), { position: last + 1 });
  else if (last > tail.position || (before !== null && before.trail !== tail.trail))
    report('Rows were added or changed from outside', { position: last });
  return {
    entries: Number(db.prepare('SELECT count(*) FROM entries').pluck().get()),
    withheld,
    digest: digestOf(db.prepare('SELECT hash FROM entries').pluck().all() as string[]),
    trail: before?.trail ?? '',
  };
}

/** As the journal's `open`, with the platform's faster SHA-256: a season is read at every start. */
function openRow(row: Row): Opened {
  if (hash('sha256', row.head) !== row.hash)
    return { ok: false, problem: 'the head does not match its hash' };
  const opened = reopen(row);
  if (!opened.ok || row.body === null || hash('sha256', row.body) === opened.entry.header.bodyHash)
    return opened;
  return { ok: false, problem: 'the body does not match the hash in the head' };
}

function gap(first: number, last: number): string {
  return first === last ? `Row ${first} is gone` : `Rows ${first} to ${last} are gone`;
}

function finding(file: string, what: string, place: Partial<Row>): Finding {
  const header = place.head === undefined ? null : peek(place.head);
  const id = typeof header?.id === 'string' ? header.id : null;
  const position = place.position ?? null;
  const hashHeld = place.hash ?? null;
  const where = [
    position === null ? null : `row ${position}`,
    id === null ? null : `entry ${id}`,
    id === null && hashHeld !== null ? `hash ${hashHeld.slice(0, 12)}` : null,
    file,
  ];
  return {
    what,
    where: where.filter((part) => part !== null).join(', '),
    mend: repair,
    position,
    hash: hashHeld,
    id,
  };
}

function words(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
