import { closeSync, existsSync, fsyncSync, mkdirSync, openSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/** Flushes a file's bytes to the disk. */
export function flushFile(file: string): void {
  flush(file, 'r+');
}

/** Flushes a folder, so that a file made or renamed in it is still there after a power cut. */
export function flushFolder(folder: string): void {
  // Windows can't open a folder for flushing and orders names itself.
  if (process.platform !== 'win32') flush(folder, 'r');
}

/** Makes a folder and those above it, and flushes each one that was new together with its parent. */
export function makeFolder(folder: string): void {
  const full = resolve(folder);
  if (existsSync(full)) return;
  const parent = dirname(full);
  makeFolder(parent);
  mkdirSync(full, { recursive: true });
  flushFolder(parent);
}

function flush(path: string, flags: string): void {
  const handle = openSync(path, flags);
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
