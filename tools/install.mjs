// Sets up what a fresh machine lacks. Plain JavaScript and nothing but Node: it runs before any package is there.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** Runs a program in the checkout with its output shown; ends this process with its code when it fails. */
export function run(program, args, options = {}) {
  const windows = process.platform === 'win32';
  const done = spawnSync(program, args, { cwd: root, stdio: 'inherit', shell: windows, ...options });
  if (done.status !== 0) {
    process.stderr.write(
      `\n${program} ${args.join(' ')} failed (${done.error?.message ?? `code ${done.status}`}).\n`,
    );
    process.exit(done.status ?? 1);
  }
}

function requireNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  process.stderr.write(`Firnbook needs Node 20.19 or newer; this is ${process.versions.node}.\n`);
  process.exit(2);
}

/** Whether npm's own note of what it installed says the same versions as the lock file. */
function isInstalled() {
  const note = `${root}/node_modules/.package-lock.json`;
  if (!existsSync(note)) return false;
  const installed = JSON.parse(readFileSync(note, 'utf8')).packages;
  const locked = JSON.parse(readFileSync(`${root}/package-lock.json`, 'utf8')).packages;
  return Object.entries(locked).every(
    ([path, { version, optional, link }]) =>
      !path.startsWith('node_modules/') || optional || link || installed[path]?.version === version,
  );
}

/** Installs the npm packages where they are missing or others than the lock file names. */
export function ensurePackages() {
  requireNode();
  if (isInstalled()) return;
  process.stdout.write('Installing packages (once; a minute or two) ...\n');
  run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error'], { env: withHeaders(process.env) });
}

/** Where the database has to be compiled, Node's own headers beside it serve; else npm would fetch them. */
function withHeaders(env) {
  const beside = join(dirname(process.execPath), '..');
  const isThere = existsSync(join(beside, 'include/node/node.h'));
  return isThere && env.npm_config_nodedir === undefined ? { ...env, npm_config_nodedir: beside } : env;
}

/** Programs that only the tests need. Debian as root: installed; elsewhere: said, and their tests skip by name. */
export function ensureTestPrograms() {
  const wanted = {
    '/usr/bin/chromium': 'chromium',
    '/usr/bin/strace': 'strace',
    '/usr/bin/xmllint': 'libxml2-utils',
    '/usr/bin/certutil': 'libnss3-tools',
    '/usr/bin/zbarimg': 'zbar-tools',
    '/usr/bin/openssl': 'openssl',
  };
  const missing = Object.entries(wanted)
    .filter(([path]) => !existsSync(path))
    .map(([, name]) => name);
  if (missing.length === 0) return;
  const debianRoot = existsSync('/usr/bin/apt-get') && process.getuid?.() === 0;
  if (!debianRoot) {
    process.stdout.write(
      `Not on this machine: ${missing.join(', ')}. Tests that need them are skipped by name.\n`,
    );
    return;
  }
  process.stdout.write(`Installing ${missing.join(', ')} for the tests ...\n`);
  const quiet = {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
  };
  try {
    execFileSync('apt-get', ['update', '-qq'], quiet);
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...missing], quiet);
  } catch {
    process.stdout.write(
      `Could not install ${missing.join(', ')}; tests that need them are skipped by name.\n`,
    );
  }
}
