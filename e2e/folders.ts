import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));
/** The screens, built once for all browser tests (built.ts). */
export const webFolder = join(root, '.cache/e2e/web');
/** Bare pages that run a room's code in a real browser. */
export const pagesFolder = join(root, '.cache/e2e/pages');

export interface Scratch {
  readonly path: string;
  remove(): void;
}

export function makeScratch(name: string): Scratch {
  const path = mkdtempSync(join(tmpdir(), `firnbook-${name}-`));
  return {
    path,
    remove: () => rmSync(path, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 }),
  };
}
