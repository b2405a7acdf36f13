import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { readStick } from '@firnbook/storage/sqlite';
import type { KnownStick } from './known.ts';

/** Folders that hold what was plugged in, on this system. */
const roots = (platform: NodeJS.Platform): readonly string[] => {
  if (platform === 'win32') return [...'DEFGHIJKLMNOPQRSTUVWXYZ'].map((letter) => `${letter}:\\`);
  if (platform === 'darwin') return childrenOf('/Volumes');
  const media = ['/media', '/run/media'].flatMap(childrenOf);
  return [...media, ...media.flatMap(childrenOf), ...childrenOf('/mnt')];
};

/** Where each known stick is now, by its id; one that isn't in is absent. */
export function findSticks(
  known: readonly KnownStick[],
  platform: NodeJS.Platform = process.platform,
): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  if (known.length === 0) return found;
  const ids = new Set(known.map(({ id }) => id));
  for (const folder of [...known.map((stick) => stick.folder), ...roots(platform)]) {
    const stick = readStick(folder);
    if (stick !== null && ids.has(stick.id) && !found.has(stick.id)) found.set(stick.id, folder);
  }
  return found;
}

function childrenOf(folder: string): readonly string[] {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map((entry) => join(folder, entry.name));
  } catch {
    return [];
  }
}
