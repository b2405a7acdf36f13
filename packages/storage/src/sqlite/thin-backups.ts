import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { listBackups } from './backup.ts';

/** The newest ones are all kept. */
const newest = 12;

/**
 * Takes away generations that were made by themselves and that a stick has too many of: the newest twelve stay, and of
 * the days before them the last of each day. Call it only after a newer one was read back.
 *
 * @returns folders that were taken away
 */
export function thinBackups(target: string, campaign: string): readonly string[] {
  const older = listBackups(target, campaign).slice(0, -newest);
  const lastOfDay = new Map<string, string>();
  for (const folder of older) lastOfDay.set(dayOf(folder), folder);
  const kept = new Set(lastOfDay.values());
  const surplus = older.filter((folder) => !kept.has(folder));
  for (const folder of surplus) rmSync(folder, { recursive: true });
  return surplus;
}

/** The day a backup says it was made; one that doesn't say is a day of its own, and so is kept. */
function dayOf(folder: string): string {
  try {
    const { madeAt } = JSON.parse(readFileSync(join(folder, 'backup.json'), 'utf8')) as {
      readonly madeAt: string;
    };
    return madeAt.slice(0, 10);
  } catch {
    return folder;
  }
}
