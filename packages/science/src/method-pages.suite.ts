import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** Runs the code of a page; lines that end in a comment with a result promise it, to the digits printed. */
const promises = (
  code: string,
  names: Readonly<Record<string, unknown>>,
): readonly { line: string; printed: string; found: unknown }[] => {
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

/**
 * Promises that the worked examples of these pages of docs/method give what they print.
 *
 * @param names what the examples may call
 */
export const describeWorkedExamples = (
  pages: readonly string[],
  names: Readonly<Record<string, unknown>>,
): void => {
  describe('worked examples of the method pages', () => {
    for (const page of pages) {
      const text = readFileSync(new URL(`../../../docs/method/${page}.md`, import.meta.url), 'utf8');
      const code = /## Worked example\n\n```js\n([\s\S]*?)```/.exec(text)?.[1] ?? '';
      const all = promises(code, names);
      it(`docs/method/${page}.md has one`, () => {
        expect(all.length).toBeGreaterThan(2);
      });
      for (const { line, printed, found } of all)
        it(`${page}: ${line}`, () => {
          if (Number.isNaN(Number(printed))) return expect(found).toBe(printed);
          const number = (value: number): string => {
            const digits = printed.replace(/^-/, '').replace(/e.*/, '');
            const decimals = digits.split('.')[1]?.length ?? 0;
            return printed.includes('e') ? value.toExponential(decimals) : value.toFixed(decimals);
          };
          expect(Number(number(Number(found)))).toBe(Number(printed));
        });
    }
  });
};
