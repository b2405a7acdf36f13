import { closeSync, fsyncSync, mkdirSync, openSync, renameSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { CommandError } from './refusal.ts';

/**
 * Writes files into one folder, all or none: under other names first, flushed, then renamed. Whatever fails before
 * the renames leaves the folder as it was.
 *
 * @param files text by file name
 * @returns paths written
 */
export const writeTogether = (folder: string, files: Readonly<Record<string, string>>): readonly string[] => {
  mkdirSync(folder, { recursive: true });
  const plans = Object.entries(files).map(([name, text]) => ({
    text,
    path: join(folder, name),
    unfinished: join(folder, `.${name}.unfinished-${process.pid}`),
  }));
  for (const { path } of plans)
    if (statSync(path, { throwIfNoEntry: false })?.isDirectory())
      throw new CommandError(
        'a folder of this name is in the way',
        path,
        'Move it, or choose another folder with --out.',
      );
  try {
    for (const { unfinished, text } of plans) {
      const file = openSync(unfinished, 'wx');
      try {
        const bytes = Buffer.from(text, 'utf8');
        for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
        fsyncSync(file);
      } finally {
        closeSync(file);
      }
    }
    for (const { unfinished, path } of plans) renameSync(unfinished, path);
  } catch (error) {
    for (const { unfinished } of plans) rmSync(unfinished, { force: true });
    throw error;
  }
  return plans.map(({ path }) => path);
};
