import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { chart, themeStyleSheet, themes, themeVariables, toSvg } from '@firnbook/drawing';
import { figureCsv } from './figure-csv.ts';
import { site } from './site.ts';
import { charts, methodTexts } from './sources.ts';

/** build.ts FOLDER: writes the method site there, all but fonts.css, which the screens' build has. */
const [folder] = process.argv.slice(2);
if (folder === undefined) throw new Error('build.ts needs a folder to write to.');

const resolve = createRequire(import.meta.url).resolve;
const own = (name: string): string => readFileSync(new URL(name, import.meta.url), 'utf8');

/** The equations' own sheet, but for its font, which is served from here. */
const equations = readFileSync(resolve('temml/dist/Temml-NotoSans.css'), 'utf8')
  .replace(/@font-face\s*\{[^}]*\}/, '')
  .replaceAll('NotoSans Math', 'Noto Sans Math');
const paper = Object.entries(themeVariables(themes.standard)).map(([name, value]) => `${name}:${value}`);

const figures = await charts();
const { pages, rules } = site(methodTexts(), figures);
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
for (const [name, html] of pages) writeFileSync(join(folder, name), html);
for (const [name, input] of figures) {
  writeFileSync(join(folder, `${name}.svg`), toSvg(chart(input), themes.standard));
  writeFileSync(join(folder, `${name}.csv`), figureCsv(input));
}
writeFileSync(
  join(folder, 'method.css'),
  [
    themeStyleSheet(),
    `@media print{:root[data-theme],:root{${paper.join(';')}}}`,
    equations,
    rules,
    own('method.css'),
  ].join('\n'),
);
writeFileSync(join(folder, 'look.js'), own('look.js'));
writeFileSync(
  join(folder, 'noto-sans-math.woff2'),
  readFileSync(resolve('@fontsource/noto-sans-math/files/noto-sans-math-latin-400-normal.woff2')),
);
