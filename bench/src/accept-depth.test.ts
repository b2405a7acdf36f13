import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const run = (...args: string[]) =>
  spawnSync(
    process.execPath,
    [
      '--import',
      'tsx',
      '--conditions=source',
      fileURLToPath(new URL('./accept-depth.ts', import.meta.url)),
      ...args,
    ],
    { encoding: 'utf8', cwd: fileURLToPath(new URL('../..', import.meta.url)) },
  );

describe('npm run accept:depth', () => {
  it('judges as many seasons as asked for, the same for the same word, and ends with 1 exactly where a goal is missed', () => {
    const [one, two] = [1, 2].map(() => run('--seasons', '3', '--seed', 'a word', '--json'));
    const [first, second] = [one, two].map(({ stdout }) => JSON.parse(stdout));
    expect(first.seasons).toBe(3);
    expect(first.parts.map(({ name }: { name: string }) => name)).toEqual([
      'with 3 soundings',
      'without soundings',
    ]);
    expect(second.parts).toEqual(first.parts);
    expect(one.status).toBe(first.missed === 0 ? 0 : 1);
  });
  it('prints a line for every goal, the slips by kind, its word, and how long it took', () => {
    const { stdout } = run('--seasons', '2', '--seed', 'a word');
    expect(stdout).toContain('seeds from a word (--seed)');
    expect(stdout.match(/95 % intervals hold the true bottoms\b.* (pass|FAIL)/g)).toHaveLength(4);
    expect(stdout).toMatch(/It took \d+ s/);
  });
  it('says what is wrong with a count that is none', () => {
    const { status, stderr } = run('--seasons', 'many');
    expect(status).toBe(2);
    expect(stderr).toContain('give a whole number of 1 or more');
  });
});
