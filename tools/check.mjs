// The house checks itself: types, lint and format, import arrows, purity, unused code. Each check is shown to
// have teeth by a broken fixture that it must refuse, and says how many files it looked at.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { cruise } from 'dependency-cruiser';
import extractTSConfig from 'dependency-cruiser/config-utl/extract-ts-config';
import importRules from './dependency-cruiser.mjs';
import { root } from './install.mjs';
import { impurities } from './purity.mjs';
import { pureRooms } from './rooms.mjs';
import { sourceFiles } from './source-files.mjs';

const fixtures = join(root, 'tools/fixtures');

/** Runs a program of ours from node_modules; its output is the failure's text. */
function program(name, args) {
  const done = spawnSync(join(root, 'node_modules/.bin', name), args, { cwd: root, encoding: 'utf8' });
  return done.status === 0 ? [] : [`${done.stdout}${done.stderr}`.trim()];
}

async function cruised(baseDir, folders) {
  const tsConfig = extractTSConfig(join(root, 'tsconfig.tests.json'));
  const options = {
    ...importRules.options,
    baseDir,
    ruleSet: { forbidden: importRules.forbidden },
    validate: true,
  };
  const { output } = await cruise(folders, options, undefined, { tsConfig });
  return output;
}

const words = ({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`;

async function brokenImport(fixture, folders, rule) {
  const output = await cruised(join(fixtures, fixture), folders);
  const hit = output.summary.violations.some((violation) => violation.rule.name === rule);
  return hit ? [] : [`the fixture ${fixture} breaks ${rule} and was not refused`];
}

const checks = {
  'types of sources and tests': () => program('tsc', ['-p', 'tsconfig.tests.json']),
  'lint and format': () => program('biome', ['check', '.']),
  'unused code and dependencies': () => program('knip', ['--no-progress']),
  'import arrows and circles': async () => {
    const output = await cruised(root, ['packages', 'apps', 'demo', 'bench', 'docs']);
    const seen = new Set(output.modules.map((module) => module.source));
    const missed = sourceFiles().filter((file) => !seen.has(file));
    return [
      ...output.summary.violations.map(words),
      ...(missed.length > 0 ? [`${missed.length} files were not looked at, first ${missed[0]}`] : []),
    ];
  },
  'an arrow up is refused': () => brokenImport('arrow', ['packages'], 'arrows-of-packages-science'),
  'a type import up is refused': () =>
    brokenImport('type-import', ['packages'], 'arrows-of-packages-journal'),
  'a circle is refused': () => brokenImport('circle', ['packages'], 'no-circle'),
  'a node module in a pure room is refused': () =>
    brokenImport('node', ['packages'], 'pure-rooms-use-no-node-modules'),
  'sqlite in the web app is refused': () =>
    brokenImport('web-store', ['apps', 'packages'], 'web-sees-the-browser-store-only'),
  'pure rooms are pure': () => {
    const files = sourceFiles().filter(
      (file) => pureRooms.some((room) => file.startsWith(`${room}/`)) && !/\.(test|suite)\.tsx?$/.test(file),
    );
    if (files.length < 30) return [`only ${files.length} files looked at`];
    return files.flatMap((file) => impurities(join(root, file)));
  },
  'impurities are refused': () => {
    const found = impurities(join(fixtures, 'purity/impure.ts'));
    return found.length === 5 ? [] : [`5 impurities stand in the fixture, ${found.length} were found`];
  },
  'no room is called utils, common, helpers or shared': () =>
    sourceFiles().filter((file) => /(^|\/)(utils?|common|helpers?|shared|misc|lib)(\/|\.tsx?$)/.test(file)),
  'long files give their reason': () =>
    sourceFiles().filter((file) => {
      const text = readFileSync(join(root, file), 'utf8');
      return (
        !/\.(test|suite)\.tsx?$/.test(file) && text.split('\n').length > 400 && !/^(\/\/|\/\*)/.test(text)
      );
    }),
};

/** Runs every check; says each on a line; returns how many passed, and the names of those that did not. */
export async function checkHouse() {
  let passed = 0;
  const failed = [];
  for (const [name, check] of Object.entries(checks)) {
    const wrong = await check();
    process.stdout.write(`${wrong.length === 0 ? 'ok  ' : 'FAIL'} ${name}\n`);
    for (const line of wrong) process.stdout.write(`     ${line}\n`);
    if (wrong.length === 0) passed += 1;
    else failed.push(name);
  }
  process.stdout.write(`${sourceFiles().length} source files looked at\n`);
  return { passed, failed };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { failed } = await checkHouse();
  process.exit(failed.length === 0 ? 0 : 1);
}
