import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Have } from '@firnbook/journal';
import type { CapacityTest, Stick } from '@firnbook/storage/sqlite';

/** A stick that a person named once; from then on it is written to whenever it is in. */
export interface KnownStick extends Stick {
  /** Where it was when it was named. */
  readonly folder: string;
  /** Null where nobody let it be tested. */
  readonly tested: CapacityTest | null;
  /** A person asked that keys, list of devices and PINs are not copied to it. */
  readonly withoutNetwork?: boolean;
}

/** A backup that was read back whole from its stick. */
export interface VerifiedBackup {
  readonly stick: string;
  readonly campaign: string;
  readonly generation: number;
  /** ISO 8601, UTC, of this computer's clock. */
  readonly madeAt: string;
  readonly entries: number;
  readonly digest: string;
  readonly heads: Have;
  readonly isPastCache: boolean;
}

// Two files, since two programs write: people's command line names sticks, the server notes what it did with them.
const knownFile = (dataFolder: string): string => join(dataFolder, 'sticks.json');
const doneFile = (dataFolder: string): string => join(dataFolder, 'stick-backups.json');

export const knownSticks = (dataFolder: string): readonly KnownStick[] => readList(knownFile(dataFolder));

/** Adds a stick, or renews what is known of it. */
export function knowStick(dataFolder: string, stick: KnownStick): void {
  const others = knownSticks(dataFolder).filter(({ id }) => id !== stick.id);
  writeList(knownFile(dataFolder), [...others, stick]);
}

/** The newest verified backup of each campaign on each stick. */
export const verifiedBackups = (dataFolder: string): readonly VerifiedBackup[] =>
  readList(doneFile(dataFolder));

export function noteBackup(dataFolder: string, backup: VerifiedBackup): void {
  const others = verifiedBackups(dataFolder).filter(
    ({ stick, campaign }) => stick !== backup.stick || campaign !== backup.campaign,
  );
  writeList(doneFile(dataFolder), [...others, backup]);
}

/** Empty where there is none or it can't be read: then nothing is claimed, and the next backup says it anew. */
function readList<T>(file: string): readonly T[] {
  if (!existsSync(file)) return [];
  try {
    const list: unknown = JSON.parse(readFileSync(file, 'utf8'));
    return Array.isArray(list) ? list : [];
  } catch {
    return [];
  }
}

function writeList(file: string, list: readonly unknown[]): void {
  writeFileSync(`${file}.new`, `${JSON.stringify(list, null, 1)}\n`);
  renameSync(`${file}.new`, file);
}
