import type { Random } from '../../random/index.ts';
import { between, logNormal } from './draws.ts';

/** One who logs core with one tape, for weeks. */
export interface Logger {
  readonly tape: string;
  /** Metres by which every length is written too short (below 0: too long). */
  readonly shortBy: number;
  /** Scale error of the tape: what is read is true / (1 + tapeScale). */
  readonly tapeScale: number;
  /** Estimates of lost ice are this times what is lost. */
  readonly lossFactor: number;
}

/**
 * What stays the same for a season or a crew; most of it is never written down. Invented; sizes are common practice,
 * no source. Metres, degrees Celsius.
 */
export interface Conditions {
  readonly cableScale: number;
  /** Change of the scale error from run to run: ice on the measuring wheel, wear. */
  readonly cableWander: number;
  readonly fillMean: number;
  /** Chips settle the same way for a season: as gamma or as lognormal. */
  readonly fillIsLogNormal: boolean;
  readonly stubMean: number;
  /** Mean of ice ground away where core turned in the barrel, and of crumbs lost at a break that fits. */
  readonly groundMean: number;
  readonly crumbs: number;
  readonly catcherHeight: number;
  readonly holeTemperature: number;
  /** The core on the bench is this much warmer. */
  readonly warmer: number;
  readonly soundingTapeScale: number;
  /** Zero of the counter: settles from run to run, and is somewhere else after the crew change. */
  readonly zeroWander: number;
  readonly zeroJump: number;
  readonly loggers: readonly [Logger, Logger];
  /** The second crew, with its own logger and tape, begins before this run (place from 0). */
  readonly secondCrewFrom: number;
}

const logger = (random: Random, tape: string): Logger => ({
  tape,
  shortBy: 0.0003 * random.normal(),
  tapeScale: 0.0003 * random.normal(),
  lossFactor: logNormal(random, 1, 0.12),
});

export const conditions = (random: Random, runs: number): Conditions => ({
  cableScale: 0.004 * random.normal(),
  cableWander: 0.0002 / Math.sqrt(Math.max(1, runs)),
  fillMean: logNormal(random, 0.02, 0.5),
  fillIsLogNormal: random.uniform() < 0.5,
  stubMean: logNormal(random, 0.03, 0.5),
  groundMean: logNormal(random, 0.01, 0.5),
  crumbs: logNormal(random, 0.0008, 0.3),
  catcherHeight: between(random, 0.05, 0.1),
  holeTemperature: between(random, -22, -8),
  warmer: 2 + 2 * random.normal(),
  soundingTapeScale: 0.0003 * random.normal(),
  zeroWander: 0.001,
  zeroJump: 0.015 * random.normal(),
  loggers: [logger(random, 'first tape'), logger(random, 'second tape')],
  secondCrewFrom: Math.floor(runs * between(random, 0.4, 0.6)),
});
