// npm test: installs what is missing, builds, checks the house, runs all tests, and closes with one counted line.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import { ensureBuilt } from './build.mjs';
import { ensurePackages, ensureTestPrograms, root } from './install.mjs';

ensurePackages();
ensureTestPrograms();
ensureBuilt();
const { checkHouse } = await import('./check.mjs');

const house = await checkHouse();
let { passed } = house;
let skipped = 0;
/** Named once more at the end: the output is long, and its last lines are what is read. */
const failures = house.failed.map((name) => `house: ${name}`);

/** What failed in one run, from its report: a test, or a file that broke before its first test. */
const failed = (report) =>
  report.testResults.flatMap(({ name, status, message, assertionResults }) => {
    const file = relative(root, name);
    const tests = assertionResults.filter((test) => test.status === 'failed');
    if (status === 'failed' && assertionResults.length === 0) return [`${file}: ${message}`];
    return tests.map(({ fullName }) => `${file}: ${fullName}`);
  });

/** Runs one Vitest configuration and adds its counts. */
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
    failures.push(`${name}: the run left no counts`);
    return;
  }
  const report = JSON.parse(readFileSync(counts, 'utf8'));
  passed += report.numPassedTests;
  skipped += report.numPendingTests + report.numTodoTests;
  const named = failed(report);
  // An error outside any test must not count as nothing.
  failures.push(
    ...(done.status !== 0 && named.length === 0 ? [`${name}: an error outside its tests`] : named),
  );
}

tests('units', 'vitest.config.ts');
if (existsSync('/usr/bin/chromium')) tests('browser', 'e2e/vitest.config.ts');
else {
  const files = readdirSync(join(root, 'e2e')).filter((name) => name.endsWith('.test.ts'));
  process.stdout.write(`\nSkipped, for want of /usr/bin/chromium: ${files.join(', ')}\n`);
  skipped += files.length;
}

for (const failure of failures) process.stdout.write(`\nFAILED ${failure}`);
process.stdout.write(
  `\n${passed} passed, ${failures.length} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`,
);
process.exit(failures.length === 0 ? 0 : 1);
