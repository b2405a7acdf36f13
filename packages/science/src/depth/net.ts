import type { Sites } from './sites.ts';

/**
 * The readings of one hole as the chain sees them: flat arrays, runs 1..runs, pieces in depth order.
 *
 * Unknowns: B_r bottom of the last core recovered up to run r, D_r bottom of the hole after run r, and the globals.
 * Every piece gives two parts of the way from B_(r-1) to B_r: the gap above it (part 2i) and its length (part 2i+1).
 */
export interface Net {
  readonly runs: number;
  readonly pieces: number;
  /** Counter at the start and at the end of a run, metres; NaN where absent or set aside. Index 1..runs. */
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Mean of the soundings of the hole that run r found, and its variance; NaN where there is none. */
  readonly sounding: Float64Array;
  readonly soundingVariance: Float64Array;
  /** Pieces of run r: first[r] .. first[r+1]-1. */
  readonly first: Int32Array;
  /** Part = mean + coefficient x global + normal error of this variance; parts with a site take it from there. */
  readonly partMean: Float64Array;
  readonly partVariance: Float64Array;
  readonly partCoefficient: Float64Array;
  readonly partGlobal: Int8Array;
  readonly partSite: Int32Array;
  /** Sites: stub of run r at r-1, fill met by run r at runs+r-1, then those of parts. */
  readonly sites: Sites;
  /** Number of globals and their prior: mean, precision (globals x globals). */
  readonly globals: number;
  readonly globalMean: Float64Array;
  readonly globalPrecision: Float64Array;
  /** Runs from which on the counter's zero is another one: its offset is a global, from `Global.zero` on. */
  readonly zeros: readonly number[];
  /** Prior of (B_0, D_0): mean, and precision as BB, BD, DD. */
  readonly startMean: readonly [number, number];
  readonly startPrecision: readonly [number, number, number];
  readonly runBiasVariance: number;
  readonly readingVariance: number;
  readonly offsetVariance: number;
}

/**
 * A free offset, for a look at what the readings say without one of them: of one counter reading, of all counter
 * readings from this run on, of the way of one run's core (more core than was logged), of the sounding that
 * precedes this run.
 */
export interface Opening {
  readonly kind: 'zero' | 'from' | 'to' | 'way' | 'sounding';
  readonly run: number;
}

/** Columns of the globals. */
export const Global = {
  cable: 0,
  tape: 1,
  fit: 2,
  loss: 3,
  fill: 4,
  stub: 5,
  unsure: 6,
  zero: 7,
} as const;

/** A run without core: B_r = B_(r-1) to within this, metres squared (0.01 mm). */
export const STILL = 1e-10;
