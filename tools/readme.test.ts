import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fillWithDemo } from '../apps/cli/src/fill-with-demo.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const text = readFileSync(join(root, 'README.md'), 'utf8');

/** Command lines as README prints them, indented by four. */
const commands = [...text.matchAll(/^ {4}npx firnbook (.+)$/gm)].map((match) => match[1]!);

/** A new user's folder: the example tables, and a book with the demo campaign. */
let folder: string;

function firnbook(line: string): string {
  // As a shell would: quotes hold blanks together, also inside of a word.
  const words = [...line.matchAll(/(?:[^\s"]|"[^"]*")+/g)].map(([word]) => word.replaceAll('"', ''));
  const main = join(root, 'apps/cli/src/main.ts');
  const loader = join(root, 'node_modules/tsx/dist/loader.mjs');
  return execFileSync(process.execPath, ['--import', loader, '--conditions=source', main, ...words], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'firnbook-readme-'));
  cpSync(join(root, 'demo/example'), join(folder, 'demo/example'), { recursive: true });
  await fillWithDemo(join(folder, 'firnbook-data'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('README', () => {
  it('prints commands for every part of the work that the terminal does', () => {
    expect(commands.length).toBeGreaterThanOrEqual(6);
  });

  for (const line of commands) it(`npx firnbook ${line}`, () => expect(firnbook(line)).not.toBe(''));

  it('shows pictures that exist', () => {
    const pictures = [...text.matchAll(/!\[[^\]]+\]\(([^)]+)\)/g)].map((match) => match[1]!);
    expect(pictures.length).toBeGreaterThan(3);
    for (const picture of pictures) expect(existsSync(join(root, picture)), picture).toBe(true);
  });

  it('links to pages that exist', () => {
    const pages = [...text.matchAll(/[^!]\[[^\]]+\]\(([^)]+)\)/g)].map((match) => match[1]!);
    for (const page of pages) expect(existsSync(join(root, page)), page).toBe(true);
  });
});
