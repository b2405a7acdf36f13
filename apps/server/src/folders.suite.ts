import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export function temporaryFolder(): { readonly path: string; remove(): void } {
  const path = mkdtempSync(join(tmpdir(), 'firnbook-server-'));
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

/** Runs a test in a folder of its own and removes that. */
export async function inFolder(work: (folder: string) => Promise<void>): Promise<void> {
  const folder = temporaryFolder();
  try {
    await work(folder.path);
  } finally {
    folder.remove();
  }
}
