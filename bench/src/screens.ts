import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../../', import.meta.url));

/** The screens as they are now, built as for a camp; returns their folder. */
export function buildScreens(): string {
  const folder = `${root}.cache/bench/web`;
  execFileSync(
    `${root}node_modules/.bin/vite`,
    ['build', '--outDir', folder, '--emptyOutDir', '--logLevel', 'warn'],
    {
      cwd: `${root}apps/web`,
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, NODE_ENV: 'production' },
    },
  );
  return folder;
}

/** @throws Error where this computer has no Chromium */
export async function openBrowser(): Promise<Browser> {
  const executablePath = '/usr/bin/chromium';
  if (!existsSync(executablePath))
    throw new Error(`There is no ${executablePath}. Install Chromium (Debian: apt-get install chromium).`);
  return chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
}
