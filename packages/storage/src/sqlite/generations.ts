import { existsSync, readdirSync } from 'node:fs';

/** Folder of one generation on a shelf. */
export function generationName(number: number): string {
  return `generation-${String(number).padStart(4, '0')}`;
}

/** Numbers of the finished generations on a shelf, oldest first. */
export function generationsOf(shelf: string): number[] {
  if (!existsSync(shelf)) return [];
  return readdirSync(shelf)
    .map((name) => Number(/^generation-(\d{4,})$/.exec(name)?.[1] ?? 0))
    .filter((number) => number > 0)
    .sort((a, b) => a - b);
}
