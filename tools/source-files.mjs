import { readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { root } from './install.mjs';

/** Every TypeScript source of ours, tests included, as paths from the checkout with forward slashes. */
export function sourceFiles() {
  const found = [];
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) {
        if (!['node_modules', 'dist', 'preview'].includes(entry.name)) walk(path);
      } else if (/\/src\/.*\.tsx?$/.test(path.split(sep).join('/'))) {
        found.push(relative(root, path).split(sep).join('/'));
      }
    }
  };
  for (const top of ['packages', 'apps', 'demo', 'bench', 'docs']) walk(join(root, top));
  return found.sort();
}
