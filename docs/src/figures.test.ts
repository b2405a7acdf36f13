import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chart, themes, toSvg } from '@firnbook/drawing';
import { describe, expect, it } from 'vitest';
import { charts, methodFolder, methodTexts } from './sources.ts';

const folder = join(methodFolder, 'figures');
const all = [...(await charts())];

describe('figures of the method pages', () => {
  it.each(all)('%s.svg is what its numbers give now (else: npm run figures)', (name, input) => {
    const file = join(folder, `${name}.svg`);
    expect(existsSync(file) ? readFileSync(file, 'utf8') : 'not drawn').toBe(
      toSvg(chart(input), themes.standard),
    );
  });

  it('are all drawn from numbers, and all stand on a page', () => {
    const names = all.map(([name]) => name);
    expect(readdirSync(folder).sort()).toEqual(names.map((name) => `${name}.svg`).sort());
    const text = [...methodTexts().values()].join('\n');
    expect(names.filter((name) => !text.includes(`(figures/${name}.svg)`))).toEqual([]);
  });
});
