import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import * as firn from '../firn/index.ts';
import * as ice from '../ice/index.ts';
import * as density from './index.ts';
import { wedgeVolume } from './wedge.ts';

const names = { ...ice, ...firn, ...density, wedgeVolume };

/** Runs the code of a page; lines that end in a comment with a result promise it, to the digits printed. */
const promises = (code: string): readonly { line: string; printed: string; found: unknown }[] => {
  const done: string[] = [];
  const found: { line: string; printed: string; found: unknown }[] = [];
  for (const line of code.split('\n')) {
    const [, expression = '', printed] = /^(?!\s*\/\/)(.+?) \/\/ (.+)$/.exec(line) ?? [];
    if (printed === undefined) {
      done.push(line);
      continue;
    }
    const run = new Function(...Object.keys(names), `${done.join('\n')}\nreturn (${expression});`);
    found.push({ line, printed, found: run(...Object.values(names)) });
  }
  return found;
};

describe('worked examples of the method pages', () => {
  for (const page of ['ice', 'piece-density', 'water-equivalent', 'firn', 'melt']) {
    const text = readFileSync(new URL(`../../../../docs/method/${page}.md`, import.meta.url), 'utf8');
    const code = /## Worked example\n\n```js\n([\s\S]*?)```/.exec(text)?.[1] ?? '';
    it(`docs/method/${page}.md has one`, () => {
      expect(promises(code).length).toBeGreaterThan(4);
    });
    for (const { line, printed, found } of promises(code))
      it(`${page}: ${line}`, () => {
        if (Number.isNaN(Number(printed))) return expect(found).toBe(printed);
        const decimals = printed.split('.')[1]?.length ?? 0;
        expect(Number(found).toFixed(decimals)).toBe(Number(printed).toFixed(decimals));
      });
  }
});
