import { atomicWeights } from './atomic-weights.ts';
import type { Constants } from './constant.ts';
import { creepConstants } from './creep.ts';
import { crust } from './crust.ts';
import { firnConstants } from './firn.ts';
import { halfLives } from './half-lives.ts';
import { iceConstants } from './ice.ts';
import { isotopes } from './isotopes.ts';
import { materials } from './materials.ts';
import { mechanicsConstants } from './mechanics.ts';
import { radarConstants } from './radar.ts';
import { seawater } from './seawater.ts';
import { universal } from './universal.ts';
import { years } from './years.ts';

export type { Constant, Constants } from './constant.ts';

/** All constants by subject: what the page of constants shows. */
export const constants: Readonly<Record<string, Constants>> = {
  universal,
  ice: iceConstants,
  firn: firnConstants,
  creep: creepConstants,
  mechanics: mechanicsConstants,
  materials,
  'half-lives': halfLives,
  years,
  seawater,
  crust,
  'atomic weights': atomicWeights,
  isotopes,
  radar: radarConstants,
};
