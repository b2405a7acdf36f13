import { pieceKind } from './core/schema.ts';
import { runKind, soundingKind } from './drilling/schema.ts';
import type { Field, Kind } from './kind.ts';
import { campaignKind, deviceKind, holeKind, personKind, zeroKind } from './setup/schema.ts';

/** Every kind of thing this build knows, in the order of the work. */
export const kinds: readonly Kind[] = [
  campaignKind,
  deviceKind,
  personKind,
  holeKind,
  zeroKind,
  runKind,
  pieceKind,
  soundingKind,
];

const byWord = new Map(kinds.map((kind) => [kind.kind, kind]));
const byEntry = new Map(kinds.map((kind) => [kind.entry, kind]));

/** The kind of a word of commands and views ("run"). */
export const kindOf = (word: string): Kind | undefined => byWord.get(word);

/** The kind of thing that an entry logs ("run.logged"). */
export const kindLoggedBy = (entry: string): Kind | undefined => byEntry.get(entry);

export const fieldOf = (kind: Kind, name: string): Field | undefined =>
  kind.fields.find((field) => field.name === name);
