import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import { dirname } from 'node:path';

/** Writes a file that only this account may read: whole or not at all, and on the disk when it returns. */
export function writePrivate(file: string, text: string): void {
  const folder = dirname(file);
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const descriptor = openSync(`${file}.new`, 'w', 0o600);
  try {
    writeFileSync(descriptor, text);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
  renameSync(`${file}.new`, file);
  flushFolder(folder);
}

/** Null where there is no such file; throws for one that can't be read. */
export function readPrivate(file: string): string | null {
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}

function flushFolder(folder: string): void {
  // Windows knows no such thing as the flush of a folder.
  if (process.platform === 'win32') return;
  const descriptor = openSync(folder, 'r');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}
