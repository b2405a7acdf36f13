// Builds the checkout: TypeScript to dist, then the web app. Skips itself when no source changed since.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ensurePackages, root, run } from './install.mjs';

const sources = [
  'packages',
  'apps',
  'demo',
  'bench',
  'docs',
  'tools',
  'tsconfig.base.json',
  'tsconfig.json',
  'package-lock.json',
];
const passedOver = new Set(['node_modules', 'dist', 'firnbook-data']);

function* filesUnder(path) {
  if (statSync(path).isFile()) {
    yield path;
    return;
  }
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    if (!passedOver.has(entry.name)) yield* filesUnder(join(path, entry.name));
  }
}

/** One hash over names, sizes and times of all sources: cheap enough to take at every start. */
function fingerprint() {
  const hash = createHash('sha256');
  for (const top of sources) {
    for (const file of filesUnder(join(root, top))) {
      const { size, mtimeMs } = statSync(file);
      hash.update(`${file} ${size} ${mtimeMs}\n`);
    }
  }
  return hash.digest('hex');
}

const built = ['apps/cli/dist/main.js', 'apps/web/dist/index.html', 'apps/web/dist/method/index.html'];

export function ensureBuilt() {
  const stamp = join(root, '.cache', 'built-from');
  const now = fingerprint();
  const complete = built.every((file) => existsSync(join(root, file)));
  if (complete && existsSync(stamp) && readFileSync(stamp, 'utf8') === now) return;
  process.stdout.write('Building ...\n');
  run(join(root, 'node_modules/.bin/tsc'), ['-b']);
  run(join(root, 'node_modules/.bin/vite'), ['build', '--logLevel', 'warn'], { cwd: join(root, 'apps/web') });
  mkdirSync(join(root, '.cache'), { recursive: true });
  writeFileSync(stamp, now);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  ensurePackages();
  ensureBuilt();
}
