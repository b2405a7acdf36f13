import { createHash } from 'node:crypto';
import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * The same screens with another first line: what a new release looks like to a browser.
 *
 * @param without a part that is loaded later and that the new release no longer has under this name
 */
export function nextVersion(from: string, to: string, name = 'next', without?: string): string {
  cpSync(from, to, { recursive: true });
  const index = join(to, 'index.html');
  const worker = join(to, 'sw.js');
  const integrity = () => `sha256-${createHash('sha256').update(readFileSync(index)).digest('base64')}`;
  const before = integrity();
  writeFileSync(
    index,
    readFileSync(index, 'utf8').replace('<title>', `<meta name="version" content="${name}"><title>`),
  );
  let text = readFileSync(worker, 'utf8')
    .replace(before, integrity())
    .replace(/VERSION = '[^']+'/, `VERSION = '${name}'`);
  if (without !== undefined) {
    const file = readdirSync(join(to, 'assets')).find(
      (one) => one.startsWith(`${without}-`) && one.endsWith('.js'),
    );
    if (file === undefined) throw new Error(`The screens have no part ${without}.`);
    rmSync(join(to, 'assets', file));
    const listed = new RegExp(`"/assets/${file}":\\s*"[^"]+",?`);
    if (!listed.test(text)) throw new Error(`The service worker does not list ${file}.`);
    text = text.replace(listed, '');
  }
  writeFileSync(worker, text);
  return to;
}
