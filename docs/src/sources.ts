import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Chart } from '@firnbook/drawing';

/** Where the pages stand. */
export const methodFolder = fileURLToPath(new URL('../method', import.meta.url));
const figureFolder = fileURLToPath(new URL('figures', import.meta.url));

const stems = (folder: string, ending: string): readonly string[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => name.slice(0, -ending.length))
    .sort();

/** Markdown of every method page by its name. */
export const methodTexts = (): ReadonlyMap<string, string> =>
  new Map(
    stems(methodFolder, '.md').map((name) => [name, readFileSync(join(methodFolder, `${name}.md`), 'utf8')]),
  );

/** What every figure shows, computed now. */
export async function charts(): Promise<ReadonlyMap<string, Chart>> {
  const found = new Map<string, Chart>();
  for (const name of stems(figureFolder, '.ts')) {
    const { chart } = (await import(join(figureFolder, `${name}.ts`))) as { readonly chart?: Chart };
    if (chart === undefined) throw new Error(`docs/src/figures/${name}.ts exports no chart.`);
    found.set(name, chart);
  }
  return found;
}
