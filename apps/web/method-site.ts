import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const root = fileURLToPath(new URL('../..', import.meta.url));
const made = join(root, '.cache/method');

/** Puts the method site (docs/src) under /method, with the fonts that the screens have already. */
export function methodSite(): Plugin {
  return {
    name: 'firnbook-method',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_, bundle) {
        const loader = ['--import', 'tsx', '--conditions=source'];
        execFileSync(process.execPath, [...loader, 'docs/src/build.ts', made], {
          cwd: root,
          stdio: 'inherit',
        });
        const sheets = Object.values(bundle).filter(({ fileName }) => fileName.endsWith('.css'));
        const faces = sheets.flatMap((sheet) =>
          sheet.type === 'asset' ? (String(sheet.source).match(/@font-face\s*\{[^}]*\}/g) ?? []) : [],
        );
        if (faces.length === 0)
          this.error('The method site found no fonts in the style sheets of the screens.');
        this.emitFile({ type: 'asset', fileName: 'method/fonts.css', source: `${faces.join('\n')}\n` });
        for (const name of readdirSync(made))
          this.emitFile({
            type: 'asset',
            fileName: `method/${name}`,
            source: readFileSync(join(made, name)),
          });
      },
    },
  };
}
