import { blankKind, contaminationKind, dutyKind, handoverKind, instrumentCheckKind } from './care/schema.ts';
import { featureKind, photographKind, pieceKind, trayKind } from './core/schema.ts';
import { depthVersionKind, settingsKind, spliceKind, standsKind } from './depth/schema.ts';
import { cableCheckKind, inclinationKind, runKind, soundingKind, zeroCheckKind } from './drilling/schema.ts';
import { importKind } from './imports/schema.ts';
import type { Field, Kind } from './kind.ts';
import { settledRightKind } from './people/schema.ts';
import { campaignKind, deviceKind, holeKind, personKind, setupKind, zeroKind } from './setup/schema.ts';
import { handAugeredKind, pitKind, positionKind, siteKind, stakeKind, weatherKind } from './site/schema.ts';

/** Every kind of thing this build knows, in the order of the work. */
export const kinds: readonly Kind[] = [
  campaignKind,
  deviceKind,
  personKind,
  settledRightKind,
  dutyKind,
  handoverKind,
  setupKind,
  siteKind,
  pitKind,
  handAugeredKind,
  stakeKind,
  positionKind,
  weatherKind,
  instrumentCheckKind,
  contaminationKind,
  blankKind,
  spliceKind,
  holeKind,
  zeroKind,
  zeroCheckKind,
  runKind,
  pieceKind,
  trayKind,
  featureKind,
  photographKind,
  soundingKind,
  cableCheckKind,
  inclinationKind,
  standsKind,
  settingsKind,
  depthVersionKind,
  importKind,
];

const byWord = new Map(kinds.map((kind) => [kind.kind, kind]));
const byEntry = new Map(kinds.map((kind) => [kind.entry, kind]));

/** The kind of a word of commands and views ("run"). */
export const kindOf = (word: string): Kind | undefined => byWord.get(word);

/** The kind of thing that an entry logs ("run.logged"). */
export const kindLoggedBy = (entry: string): Kind | undefined => byEntry.get(entry);

export const fieldOf = (kind: Kind, name: string): Field | undefined =>
  kind.fields.find((field) => field.name === name);
