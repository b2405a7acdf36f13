// npm test: installs what is missing, builds, checks the house, runs all tests, and closes with one counted line.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensurePackages, ensureTestPrograms, root } from './install.mjs';

ensurePackages();
ensureTestPrograms();
ensureBuilt();
const { checkHouse } = await import('./check.mjs');

const total = await checkHouse();
let skipped = 0;

/** Runs one Vitest configuration and adds its counts; a run that leaves no counts is one failure. */
function tests(name, config) {
  process.stdout.write(`\n${name}\n`);
  const counts = join(root, '.cache', `${name}.json`);
  mkdirSync(join(root, '.cache'), { recursive: true });
  rmSync(counts, { force: true });
  const args = [
    'run',
    '--config',
    config,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${counts}`,
  ];
  const done = spawnSync(join(root, 'node_modules/.bin/vitest'), args, { cwd: root, stdio: 'inherit' });
  if (!existsSync(counts)) {
    total.failed += 1;
    return;
  }
  const result = JSON.parse(readFileSync(counts, 'utf8'));
  total.passed += result.numPassedTests;
  total.failed += result.numFailedTests;
  skipped += result.numPendingTests + result.numTodoTests;
  // A suite that breaks before its first test, or an error outside any test, must not count as nothing.
  if (done.status !== 0 && result.numFailedTests === 0) total.failed += 1;
}

tests('units', 'vitest.config.ts');
if (existsSync('/usr/bin/chromium')) tests('browser', 'e2e/vitest.config.ts');
else {
  const files = readdirSync(join(root, 'e2e')).filter((name) => name.endsWith('.test.ts'));
  process.stdout.write(`\nSkipped, for want of /usr/bin/chromium: ${files.join(', ')}\n`);
  skipped += files.length;
}

process.stdout.write(
  `\n${total.passed} passed, ${total.failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`,
);
process.exit(total.failed === 0 ? 0 : 1);
