import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { trouble } from '../trouble.ts';
import { flushFile, flushFolder } from './flush.ts';

/** A medium that a person named for backups. */
export interface Stick {
  readonly id: string;
  /** What is written on its label: "red". */
  readonly name: string;
}

const stickFile = 'firnbook-stick.json';

/** The stick that a folder is, by the file in it; null where nobody named it or the file can't be read. */
export function readStick(folder: string): Stick | null {
  try {
    const found = JSON.parse(readFileSync(join(folder, stickFile), 'utf8')) as Partial<Stick> | null;
    if (typeof found?.id !== 'string' || typeof found.name !== 'string') return null;
    return { id: found.id, name: found.name };
  } catch {
    return null;
  }
}

/**
 * Names a folder (the top of a stick) as a place for backups.
 *
 * @throws StoreTrouble 'missing' where it isn't there, 'refused' where it has another name already
 */
export function nameStick(folder: string, stick: Stick): Stick {
  if (!existsSync(folder))
    throw trouble('missing', 'There is no such folder', folder, 'Put the stick in, and name its folder.');
  const there = readStick(folder);
  if (there !== null && there.name !== stick.name)
    throw trouble(
      'refused',
      `This stick is called "${there.name}" already`,
      folder,
      'Use that name, or take another stick.',
    );
  if (there !== null) return there;
  const file = join(folder, stickFile);
  writeFileSync(`${file}.new`, `${JSON.stringify({ product: 'firnbook', ...stick }, null, 2)}\n`);
  flushFile(`${file}.new`);
  renameSync(`${file}.new`, file);
  flushFolder(folder);
  return stick;
}
