import { createHash } from 'node:crypto';
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { isTrouble, trouble } from '../trouble.ts';
import { flushFolder, makeFolder } from './flush.ts';
import { generationName, generationsOf } from './generations.ts';
import { readBack } from './read-back.ts';

/** One generation of a handful of small files. */
export interface FilesBackup {
  readonly product: 'firnbook';
  readonly files: 1;
  readonly generation: number;
  /** ISO 8601, UTC, of this computer's clock. */
  readonly madeAt: string;
  /** SHA-256 by name. */
  readonly sha256: Readonly<Record<string, string>>;
  /** Of the caller: two generations of one mark hold the same to people. */
  readonly mark: string;
  /** Whether it was read back from the medium itself, past the computer's memory of what was written. */
  readonly isPastCache: boolean;
}

const noteName = 'backup.json';
/** All that are kept: they are small, and the newest one is what counts. */
const newest = 12;

/**
 * Writes small files as a new generation, flushed and read back, for this account alone where the medium knows of
 * accounts. Generations beyond the newest twelve are taken away then.
 *
 * @param files contents by name
 * @param shelf folder of the generations; made where it is missing
 * @throws StoreTrouble 'damaged' where something else comes back
 */
export function backUpFiles(files: ReadonlyMap<string, string>, shelf: string, mark: string): FilesBackup {
  makeFolder(shelf);
  const all = generationsOf(shelf);
  const generation = Math.max(0, ...all) + 1;
  const unfinished = `${join(shelf, generationName(generation))}.unfinished-${process.pid}`;
  makeFolder(unfinished);
  try {
    const sha256: Record<string, string> = {};
    let isPastCache = true;
    for (const [name, text] of files) {
      const back = writeAndReadBack(join(unfinished, name), text);
      sha256[name] = back.sha256;
      isPastCache &&= back.isPastCache;
    }
    const madeAt = new Date().toISOString();
    const note: FilesBackup = {
      product: 'firnbook',
      files: 1,
      generation,
      madeAt,
      sha256,
      mark,
      isPastCache,
    };
    writeAndReadBack(join(unfinished, noteName), `${JSON.stringify(note, null, 2)}\n`);
    flushFolder(unfinished);
    renameSync(unfinished, join(shelf, generationName(generation)));
    flushFolder(shelf);
    for (const old of all.slice(0, -(newest - 1)))
      rmSync(join(shelf, generationName(old)), { recursive: true });
    return note;
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true });
    throw error;
  }
}

/** Folders of the finished generations on a shelf, oldest first. */
export function listFilesBackups(shelf: string): readonly string[] {
  return generationsOf(shelf).map((number) => join(shelf, generationName(number)));
}

/**
 * A generation's note and its files, each as it was written.
 *
 * @throws StoreTrouble 'missing', 'damaged' or 'newer version'
 */
export function readFilesBackup(folder: string): {
  readonly note: FilesBackup;
  readonly files: ReadonlyMap<string, string>;
} {
  const note = readNote(folder);
  const files = new Map<string, string>();
  for (const [name, sha256] of Object.entries(note.sha256)) {
    const file = join(folder, name);
    const bytes = basename(name) === name ? readOrNull(file) : null;
    if (bytes === null || hashOf(bytes) !== sha256)
      throw trouble(
        'damaged',
        `${name} is ${bytes === null ? 'gone' : 'not what was written'}`,
        folder,
        'Use another generation, or the other stick.',
      );
    files.set(name, bytes.toString('utf8'));
  }
  return { note, files };
}

/** Puts files into a folder that is not there yet: all of them or none, for this account alone. */
export function restoreFiles(files: ReadonlyMap<string, string>, folder: string): void {
  const building = `${folder}.restoring-${process.pid}`;
  rmSync(building, { recursive: true, force: true });
  makeFolder(dirname(folder));
  mkdirSync(building, { mode: 0o700 });
  for (const [name, text] of files) writeFlushed(join(building, name), text);
  flushFolder(building);
  renameSync(building, folder);
  flushFolder(dirname(folder));
}

function readNote(folder: string): FilesBackup {
  const mend = 'Use another generation, or the other stick.';
  try {
    const note = JSON.parse(readFileSync(join(folder, noteName), 'utf8')) as FilesBackup;
    if (note.product === 'firnbook' && note.files === 1 && typeof note.sha256 === 'object') return note;
    throw trouble('newer version', 'This program does not know this kind of backup', folder, mend);
  } catch (error) {
    if (isTrouble(error)) throw error;
    throw trouble('missing', 'This is no finished backup', folder, mend);
  }
}

function writeAndReadBack(file: string, text: string) {
  writeFlushed(file, text);
  const back = readBack(file);
  if (back.sha256 !== hashOf(Buffer.from(text, 'utf8')))
    throw trouble('damaged', 'The medium holds something else than was written', file, 'Try another medium.');
  return back;
}

function writeFlushed(file: string, text: string): void {
  const handle = openSync(file, 'wx', 0o600);
  try {
    writeFileSync(handle, text);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

const hashOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');

function readOrNull(file: string): Buffer | null {
  try {
    return readFileSync(file);
  } catch {
    return null;
  }
}
