import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chart, themes, toSvg } from '@firnbook/drawing';
import { charts, methodFolder } from './sources.ts';

/** Draws docs/method/figures anew from docs/src/figures: `npm run figures`. */
const folder = join(methodFolder, 'figures');
mkdirSync(folder, { recursive: true });
const all = await charts();
for (const [name, input] of all)
  writeFileSync(join(folder, `${name}.svg`), toSvg(chart(input), themes.standard));
process.stdout.write(`${all.size} figures drawn to docs/method/figures\n`);
