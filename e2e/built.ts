import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import { pagesFolder, root, webFolder } from './folders.ts';

/** Builds the screens and the bare pages once, before the first browser test. */
export default function build(): void {
  vite(['build', '--outDir', webFolder, '--emptyOutDir', '--logLevel', 'warn'], 'apps/web');
  vite(['build', '--outDir', pagesFolder, '--emptyOutDir', '--logLevel', 'warn'], 'e2e/pages');
}

function vite(args: readonly string[], folder: string): void {
  execFileSync(join(root, 'node_modules/.bin/vite'), args, {
    cwd: join(root, folder),
    stdio: 'inherit',
    // The test runner says "test" here, and the screens would be built with their developer's checks.
    env: { ...process.env, NODE_ENV: 'production' },
  });
}
