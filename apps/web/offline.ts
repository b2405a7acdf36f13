import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { type Plugin, transformWithOxc } from 'vite';

const worker = 'src/sw/worker.ts';

/**
 * Writes /sw.js: the service worker of src/sw/worker.ts with the list of this build's files, each with its
 * SHA-256, and a version that is the hash of that list. The list is checked by the browser while it fetches
 * (subresource integrity), so a cache never mixes two builds. The method site stands in a list of its own: nothing
 * waits for it.
 */
export function offline(): Plugin {
  let root = '';
  let publicDir = '';
  return {
    name: 'firnbook-offline',
    apply: 'build',
    enforce: 'post',
    configResolved(config) {
      root = config.root;
      publicDir = config.publicDir;
    },
    generateBundle: {
      order: 'post',
      async handler(_, bundle) {
        const files: Record<string, string> = {};
        const later: Record<string, string> = {};
        for (const file of Object.values(bundle)) {
          if (!isKept(file.fileName)) continue;
          const list = file.fileName.startsWith('method/') ? later : files;
          list[addressOf(file.fileName)] = integrity(file.type === 'chunk' ? file.code : file.source);
        }
        for (const path of filesUnder(publicDir)) {
          files[`/${relative(publicDir, path).split(sep).join('/')}`] = integrity(readFileSync(path));
        }
        const listed = sorted(files);
        const listedLater = sorted(later);
        const source = readFileSync(join(root, worker), 'utf8');
        const { code } = await transformWithOxc(source, worker, { lang: 'ts', sourcemap: false });
        const version = createHash('sha256')
          .update(JSON.stringify([listed, listedLater]))
          .update(code)
          .digest('hex')
          .slice(0, 16);
        const head = [
          `const VERSION = '${version}';`,
          `const FILES = ${JSON.stringify(listed)};`,
          `const LATER = ${JSON.stringify(listedLater)};`,
          '',
        ].join('\n');
        this.emitFile({ type: 'asset', fileName: 'sw.js', source: `(() => {\n${head}${code}})();\n` });
      },
    },
  };
}

const sorted = (files: Readonly<Record<string, string>>): Readonly<Record<string, string>> =>
  Object.fromEntries(Object.entries(files).sort(([a], [b]) => (a < b ? -1 : 1)));

/** Old browsers' fonts and source maps are not needed to start. */
function isKept(fileName: string): boolean {
  return !/\.(woff|map)$/.test(fileName);
}

/** The page itself is asked for by its folder. */
function addressOf(fileName: string): string {
  return fileName === 'index.html' ? '/' : `/${fileName}`;
}

function integrity(content: string | Uint8Array): string {
  return `sha256-${createHash('sha256').update(content).digest('base64')}`;
}

function filesUnder(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesUnder(path) : [path];
  });
}
