import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Runs a test in a folder of its own and removes that. */
export async function inFolder(work: (folder: string) => Promise<void> | void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-storage-'));
  try {
    await work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
