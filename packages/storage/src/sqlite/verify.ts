import { hash } from 'node:crypto';
import { existsSync, statSync } from 'node:fs';
import { digestOf, type Entry, type Opened, reopen, type Sealed } from '@firnbook/journal';
import { peek } from '../admit.ts';
import { isTrouble } from '../trouble.ts';
import { type Connection, openForReading } from './connection.ts';
import { ioTrouble, isCircumstance } from './io-trouble.ts';
import { campaignOf, epochOf, holdToOurs, schemaVersion, versionOf } from './schema.ts';
import { checkStructureApart } from './structure-apart.ts';
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
 * @param see told of every entry that is sound in itself, in order of arrival
 * @throws StoreTrouble 'disk full' or 'unknown fate' where the disk, not the file, keeps it from being read
 */
export function verifyJournal(file: string, see: (entry: Entry) => void = () => undefined): Verdict {
  const hashes: string[] = [];
  const { findings, life, trail, withheld } = atOnce(
    readWhole(
      file,
      ({ hash }, entry) => {
        hashes.push(hash);
        if (entry !== null) see(entry);
      },
      checkStructure,
    ),
  );
  return {
    file,
    ok: findings.length === 0,
    campaign: life?.campaign ?? null,
    epoch: life?.epoch ?? null,
    entries: hashes.length,
    withheld,
    digest: digestOf(hashes),
    trail,
    findings,
  };
}

/**
 * The same for whoever goes on to work with the journal: what was read and found good, in order of arrival, so that
 * no row is read and opened twice.
 *
 * @throws as `verifyJournal`
 */
export function checkAndOpen(file: string): Checked {
  return atOnce(readAndOpen(file, checkStructure));
}

/**
 * The same while others have their turns: a season takes seconds.
 *
 * @param turn resolves when the check may go on, after each handful of rows; where it rejects the check ends with that
 * @throws as `verifyJournal`
 */
export async function checkInTurns(file: string, turn: () => Promise<void>): Promise<Checked> {
  if (statSync(file).size < worthAThread) return inTurns(readAndOpen(file, checkStructure), turn);
  const structure = checkStructureApart(file);
  try {
    const checked = await inTurns(
      readAndOpen(file, () => undefined),
      turn,
    );
    if (checked.findings.length === 0 && (await structure.isSound())) return checked;
  } finally {
    structure.stop();
  }
  // Something is wrong: all of it again, one after the other, as damage is named best.
  return inTurns(readAndOpen(file, checkStructure), turn);
}

/** Bytes of a file from which on a thread of its own saves more than its start takes. */
const worthAThread = 8 * 1024 * 1024;

/** The database's own check of a file, and the guards that this program put into it. */
export function isStructureSound(file: string): boolean {
  let isSound = true;
  const db = openForReading(file);
  try {
    checkStructure(db, () => {
      isSound = false;
    });
    return isSound;
  } finally {
    db.close();
  }
}

export interface Checked {
  readonly findings: readonly Finding[];
  readonly entries: readonly Entry[];
}

/** Yields where others may have a turn. */
type Steps<Result> = Generator<undefined, Result, undefined>;

function* readAndOpen(file: string, structure: typeof checkStructure): Steps<Checked> {
  const entries: Entry[] = [];
  const see: See = (_, entry) => {
    if (entry !== null) entries.push(entry);
  };
  const { findings } = yield* readWhole(file, see, structure);
  return { findings, entries };
}

async function inTurns<Result>(steps: Steps<Result>, turn: () => Promise<void>): Promise<Result> {
  try {
    for (;;) {
      const step = steps.next();
      if (step.done === true) return step.value;
      await turn();
    }
  } finally {
    // Closes the file where a turn has rejected.
    steps.return(undefined as never);
  }
}

function atOnce<Result>(steps: Steps<Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

interface Whole {
  readonly findings: readonly Finding[];
  readonly life: { readonly campaign: string; readonly epoch: string } | null;
  readonly withheld: number;
  readonly trail: string;
}

/** @param see told of every row, with its entry where that is sound in itself */
function* readWhole(file: string, see: See, structure: typeof checkStructure): Steps<Whole> {
  const findings: Finding[] = [];
  const report: Report = (what, place = {}) => findings.push(finding(file, what, place));
  const nothing = { findings, life: null, withheld: 0, trail: '' };
  if (!existsSync(file)) {
    report('The journal file is not there');
    return nothing;
  }
  let db: Connection | null = null;
  try {
    db = openForReading(file);
    holdToOurs(db);
    // An older or just created file is sound as far as can be told; opening it for writing migrates it.
    if (versionOf(db) < schemaVersion) return nothing;
    structure(db, report);
    yield;
    const read = yield* checkRows(db, report, see);
    return { findings, life: { campaign: campaignOf(db), epoch: epochOf(db) }, ...read };
  } catch (error) {
    if (isCircumstance(error)) throw ioTrouble(error, file);
    report(isTrouble(error) ? error.what : `The file can't be read further: ${words(error)}`);
    return nothing;
  } finally {
    db?.close();
  }
}

/** Rows that are fetched at a time: one by one, each costs a change between two worlds. */
const handful = 2000;

type Columns = [number, string, string, string | null, string | null, string];

/** Rows one by one in order of arrival; ends early and tells `broken` when the file can't be read further. */
export function* rowsOf(db: Connection, broken: (error: unknown) => void): Generator<Row> {
  try {
    const some = db
      .prepare(
        `SELECT position, hash, head, body, signature, trail FROM entries WHERE position > ? ORDER BY position LIMIT ${handful}`,
      )
      .raw();
    let last = Number.MIN_SAFE_INTEGER;
    for (let isMore = true; isMore; ) {
      let got: Iterable<unknown>;
      try {
        got = some.all(last);
      } catch (error) {
        if (isCircumstance(error)) throw error;
        // Somewhere in this handful: one by one, up to the place itself.
        got = some.iterate(last);
      }
      let count = 0;
      for (const [position, hash, head, body, signature, trail] of got as Iterable<Columns>) {
        yield { position, hash, head, body, signature, trail };
        // A damaged row may come with the number of an earlier one: from there the same would be read for ever.
        last = Math.max(last, position);
        count += 1;
      }
      isMore = count === handful;
    }
  } catch (error) {
    if (isCircumstance(error)) throw error;
    broken(error);
  }
}

type Report = (what: string, place?: Partial<Row>) => void;

function checkStructure(db: Connection, report: Report): void {
  try {
    const lines = db.pragma('integrity_check', { simple: false }) as readonly { integrity_check: string }[];
    for (const line of lines)
      if (line.integrity_check !== 'ok') report(`The database is damaged: ${line.integrity_check}`);
  } catch (error) {
    if (isCircumstance(error)) throw error;
    report(`The database is damaged: ${words(error)}`);
    // A page in which one cell is damaged would not be read at all; the others in it can be, and be named.
    db.pragma('cell_size_check = OFF');
  }
  const guards = db
    .prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'entries'")
    .pluck()
    .get();
  if (guards !== 2) report('The guard against changing entries was removed from the file');
}

type See = (row: Row, entry: Entry | null) => void;

function* checkRows(db: Connection, report: Report, see: See): Steps<Pick<Whole, 'withheld' | 'trail'>> {
  const follows = chains();
  let before: Row | null = null;
  let withheld = 0;
  const broken = (error: unknown) =>
    report(`The rows after ${before?.position ?? 0} can't be read: ${words(error)}`);
  for (const row of rowsOf(db, broken)) {
    const expected: number = (before?.position ?? 0) + 1;
    if (row.position > expected) report(gap(expected, row.position - 1), { position: expected });
    else if (row.position < expected)
      report(`In the place of row ${expected} stands one with another number`, { position: expected });
    const opened = openRow(row);
    if (!opened.ok) report(`The entry is damaged: ${opened.problem}`, row);
    else {
      const fault = follows(opened.entry);
      if (fault !== null) report(fault, row);
      // A damaged or missing row breaks the trail behind it too; only the first place is news.
      if (row.position === expected && row.trail !== nextTrail(before?.trail ?? '', row.position, row))
        report('The row was changed, or the row before it was', row);
    }
    see(row, opened.ok ? opened.entry : null);
    if (row.body === null) withheld += 1;
    before = row.position < expected ? { ...row, position: expected } : row;
    if (before.position % handful === 0) yield;
  }
  const tail = db.prepare('SELECT position, trail FROM tail').get() as { position: number; trail: string };
  const last = before?.position ?? 0;
  if (last < tail.position) report(gap(last + 1, tail.position), { position: last + 1 });
  else if (last > tail.position || (before !== null && before.trail !== tail.trail))
    report('Rows were added or changed from outside', { position: last });
  return { withheld, trail: before?.trail ?? '' };
}

/** Says what is wrong with an entry's place in its device's chain, after all that came before it; null where nothing. */
function chains(): (entry: Entry) => string | null {
  const all: Entry[] = [];
  const tips = new Map<string, Entry>();
  let byHash: Map<string, Entry> | null = null;
  /** Nearly every entry follows the one that its device wrote last; only a cloned device's must be searched for. */
  const find = (device: string, hash: string): Entry | undefined => {
    const tip = tips.get(device);
    if (tip?.hash === hash) return tip;
    byHash ??= new Map(all.map((one) => [one.hash, one]));
    return byHash.get(hash);
  };
  return (entry) => {
    const { device, previous, sequence } = entry.header;
    const before = previous === null ? undefined : find(device, previous)?.header;
    all.push(entry);
    tips.set(device, entry);
    byHash?.set(entry.hash, entry);
    if (previous !== null && before?.device !== device)
      return 'The entry before it on the same device is gone';
    return sequence === (before?.sequence ?? 0) + 1 ? null : 'Its number on the device does not follow';
  };
}

/** As the journal's `open`, with the platform's faster SHA-256: a season is read at every start. */
function openRow(row: Row): Opened {
  const { head } = row as { readonly head: unknown };
  if (typeof head === 'string' && hash('sha256', head) !== row.hash)
    return { ok: false, problem: 'the head does not match its hash' };
  // Says of columns that are no text in a damaged file what they are not.
  const opened = reopen(bare(row));
  if (!opened.ok || row.body === null || hash('sha256', row.body) === opened.entry.header.bodyHash)
    return opened;
  return { ok: false, problem: 'the body does not match the hash in the head' };
}

/** What an entry is made of, without its place in this file. */
export function bare({ hash, head, body, signature }: Sealed): Sealed {
  return { hash, head, body, signature };
}

function gap(first: number, last: number): string {
  return first === last ? `Row ${first} is gone` : `Rows ${first} to ${last} are gone`;
}

export function finding(file: string, what: string, place: Partial<Row>): Finding {
  const head = textOf(place.head);
  const header = head === null ? null : peek(head);
  const id = typeof header?.id === 'string' ? header.id : null;
  const position = place.position ?? null;
  const hashHeld = textOf(place.hash);
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

/** In a damaged file a number or nothing may stand where text was. */
function textOf(value: unknown): string | null {
  return typeof value === 'string' ? value : null;
}

function words(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
