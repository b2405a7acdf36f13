import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { trouble } from '../trouble.ts';
import { makeFolder } from './flush.ts';

export interface FolderLock {
  readonly folder: string;
  release(): void;
}

/**
 * Takes a data folder for this process alone. The lock is the operating system's, held through SQLite on a small
 * file of its own, so it ends with the process however that dies; there is no stale lock to judge.
 *
 * @param folder data folder; made when it is not there
 * @param by who takes it, in words for the one who is refused ("the server")
 * @throws StoreTrouble 'locked', saying which process on which computer holds it
 */
export function lockFolder(folder: string, by: string): FolderLock {
  makeFolder(folder);
  // The short wait is for a holder that is just closing down.
  const db = new Database(join(folder, 'lock.sqlite'), { timeout: 500 });
  try {
    // No byte is ever written into the file, so that a full disk doesn't keep anyone from locking.
    db.pragma('journal_mode = MEMORY');
    db.pragma('locking_mode = EXCLUSIVE');
    db.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    db.close();
    if (!(error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_BUSY')))
      throw error;
    throw trouble(
      'locked',
      `The data folder is in use by ${holderOf(folder) ?? 'another process'}`,
      folder,
      'Work through that one, stop it first, or choose another folder with --data.',
    );
  }
  try {
    writeFileSync(holderFile(folder), JSON.stringify({ by, pid: process.pid, host: hostname() }));
  } catch {
    // A full disk must not keep anyone out of the folder: the file only helps the words of a refusal.
  }
  return {
    folder,
    release: () => {
      if (!db.open) return;
      rmSync(holderFile(folder), { force: true });
      db.close();
    },
  };
}

/** For the words of the refusal alone: the lock decides, not this file. */
function holderOf(folder: string): string | null {
  try {
    const held: unknown = JSON.parse(readFileSync(holderFile(folder), 'utf8'));
    const { by, pid, host } = held as Record<string, unknown>;
    return `${String(by)} (process ${String(pid)} on ${String(host)})`;
  } catch {
    return null;
  }
}

function holderFile(folder: string): string {
  return join(folder, 'holder.json');
}
