/** Runs every benchmark, one process each, and passes on its one JSON line: `npm run bench`, `npm run bench P1`. */
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const wanted = process.argv.slice(2).map((id) => id.toLowerCase());

const scripts = readdirSync(here)
  .filter((name) => /^[abplv]\d+.*\.ts$/.test(name) && !name.endsWith('.test.ts'))
  .filter((name) => wanted.length === 0 || wanted.includes(name.split(/[-.]/)[0] ?? ''))
  .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));

let failed = 0;
for (const script of scripts) {
  const args = ['--import', 'tsx', '--conditions=source', here + script];
  const done = spawnSync(process.execPath, args, { stdio: ['ignore', 'inherit', 'inherit'] });
  if (done.status !== 0) failed += 1;
}
process.exit(failed === 0 ? 0 : 1);
