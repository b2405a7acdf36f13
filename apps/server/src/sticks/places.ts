import { accessSync, constants, readdirSync, statfsSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import { readStick } from '@firnbook/storage/sqlite';
import type { KnownStick } from './known.ts';

/** Folders that hold what was plugged in, on this system. */
const roots = (platform: NodeJS.Platform): readonly string[] => {
  if (platform === 'win32') return [...'DEFGHIJKLMNOPQRSTUVWXYZ'].map((letter) => `${letter}:\\`);
  if (platform === 'darwin') return childrenOf('/Volumes');
  const media = ['/media', '/run/media'].flatMap(childrenOf);
  return [...media, ...media.flatMap(childrenOf), ...childrenOf('/mnt')];
};

/** A medium in the computer that this book does not write to yet. */
export interface NewStick {
  /** Folder under which it shows up: "/media/camp/KINGFISH". */
  readonly place: string;
  /** As the system calls it. */
  readonly label: string;
  /** Bytes that it says to have, and to have free. */
  readonly bytes: number;
  readonly free: number;
  /** The name that another book gave it; null where none did. */
  readonly name: string | null;
  /** False where it is write-protected. */
  readonly canWrite: boolean;
}

/**
 * Media that could be named, each once. This computer's own disk, and the one that the book lies on, are none: a copy
 * there would be lost with the book.
 *
 * @param media folders whose children are media; those of this system unless given
 */
export function newSticks(
  known: readonly KnownStick[],
  dataFolder: string,
  media?: readonly string[],
): readonly NewStick[] {
  const places = media === undefined ? roots(process.platform) : media.flatMap(childrenOf);
  const seen = new Set([deviceOf('/'), deviceOf(dataFolder)]);
  const ids = new Set(known.map(({ id }) => id));
  const found: NewStick[] = [];
  // A folder on a stick lies deeper than the stick.
  for (const place of [...places].sort((a, b) => a.length - b.length)) {
    const device = deviceOf(place);
    if (device === null || seen.has(device)) continue;
    seen.add(device);
    const stick = readStick(place);
    if (stick !== null && ids.has(stick.id)) continue;
    const room = roomOf(place);
    if (room === null || room.bytes === 0) continue;
    const label = basename(place) === '' ? place : basename(place);
    found.push({ place, label, ...room, name: stick?.name ?? null, canWrite: canWrite(place) });
  }
  return found.sort((a, b) => (a.place < b.place ? -1 : 1));
}

function deviceOf(place: string): number | null {
  try {
    return statSync(place).dev;
  } catch {
    return null;
  }
}

function roomOf(place: string): { readonly bytes: number; readonly free: number } | null {
  try {
    const { bsize, blocks, bavail } = statfsSync(place);
    return { bytes: blocks * bsize, free: bavail * bsize };
  } catch {
    return null;
  }
}

function canWrite(place: string): boolean {
  try {
    accessSync(place, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

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
