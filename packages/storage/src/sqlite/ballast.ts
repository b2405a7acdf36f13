import { closeSync, existsSync, fsyncSync, openSync, rmSync, statfsSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { flushFolder, makeFolder } from './flush.ts';

/** Room for some 15,000 entries, and for the database's own small files at a start on a full disk. */
const ballastBytes = 16 * 1024 * 1024;

/**
 * Lays a file into the data folder that does nothing but take room, so that there is some to give back when the
 * disk is full: a journal can't even be opened then. Does nothing while the disk has little room anyway.
 */
export function layBallast(folder: string): void {
  makeFolder(folder);
  const file = ballastFile(folder);
  const { bavail, bsize } = statfsSync(folder);
  if (existsSync(file) || bavail * bsize < 8 * ballastBytes) return;
  const handle = openSync(file, 'wx');
  try {
    const piece = Buffer.alloc(1024 * 1024, 0x46);
    for (let done = 0; done < ballastBytes; done += piece.length) writeSync(handle, piece);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Gives the room back; false when there is none left to give. */
export function releaseBallast(folder: string): boolean {
  const file = ballastFile(folder);
  if (!existsSync(file)) return false;
  rmSync(file);
  flushFolder(folder);
  return true;
}

function ballastFile(folder: string): string {
  return join(folder, 'ballast');
}
