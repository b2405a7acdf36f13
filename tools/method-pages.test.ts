import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = join(root, 'docs/method');

/** A worked example: a program, and below it what it prints. */
const example = /```js\n([\s\S]*?)```\n+```text\n([\s\S]*?)```/g;

const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.md'))
  .flatMap((name) =>
    [...readFileSync(join(folder, name), 'utf8').matchAll(example)].map(
      ([, program, prints]) => [name, program!, prints!] as const,
    ),
  );

describe('method pages', () => {
  it('hold worked examples', () => {
    expect(examples.length).toBeGreaterThanOrEqual(2);
  });

  it.each(examples)('%s prints what it says', (_, program, prints) => {
    const loader = join(root, 'node_modules/tsx/dist/loader.mjs');
    const words = ['--import', loader, '--conditions=source', '--input-type=module', '--eval', program];
    expect(execFileSync(process.execPath, words, { cwd: root, encoding: 'utf8' })).toBe(prints);
  });
});
