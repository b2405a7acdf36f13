import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/** Bytes after gzip of what stands in the first page and of everything that it loads before it can show a form. */
export interface BuiltSize {
  readonly code: number;
  readonly styles: number;
  /** Faces, which are compressed in themselves; text shows before they have come. */
  readonly fonts: number;
  /** The thread that solves, which a form does not wait for. */
  readonly solver: number;
}

/** @param folder of the built screens */
export function builtSize(folder: string): BuiltSize {
  const page = read(folder, 'index.html');
  const named = [...page.matchAll(/(?:src|href)="\/?(assets\/[^"]+)"/g)].map(([, name]) => name!);
  const code = reach(
    folder,
    named.filter((name) => name.endsWith('.js')),
  );
  const styles = named.filter((name) => name.endsWith('.css'));
  const all = [...code].map((name) => read(folder, name)).join('\n');
  const workers = [...all.matchAll(/assets\/worker-[\w-]+\.js/g)].map(([name]) => name);
  const solver = reach(folder, workers);
  const faces = styles.flatMap((name) =>
    [...read(folder, name).matchAll(/assets\/[^)"']+\.woff2/g)].map(([face]) => face!),
  );
  const sum = (names: Iterable<string>): number =>
    [...new Set(names)].reduce((bytes, name) => bytes + gzipSync(readFileSync(join(folder, name))).length, 0);
  return {
    code: sum(code) + gzipSync(page).length,
    styles: sum(styles),
    fonts: sum(faces),
    solver: sum(solver),
  };
}

/** These files and all that they import before they run; what is imported later on is left out. */
function reach(folder: string, names: readonly string[]): Set<string> {
  const found = new Set<string>();
  const todo = [...names];
  for (let name = todo.pop(); name !== undefined; name = todo.pop()) {
    if (found.has(name)) continue;
    found.add(name);
    const text = read(folder, name);
    for (const [, other] of text.matchAll(/(?:\bfrom|\bimport)\s*["'`]\.\/([\w.-]+\.js)["'`]/g))
      todo.push(`assets/${other}`);
  }
  return found;
}

const read = (folder: string, name: string): string => readFileSync(join(folder, name), 'utf8');
