import type { Rows } from './rows.ts';
import type { Sites } from './sites.ts';
import type { Unknowns } from './unknowns.ts';

/**
 * The readings of one hole as the chain sees them: flat arrays, rows 1..rows (a row is a run as a rule, see `rows.ts`),
 * pieces in depth order.
 *
 * Unknowns: B_r bottom of the last core at the end of row r, D_r bottom of the hole there, and the globals. Every piece
 * gives two parts of the way from B_(r-1) to B_r: the gap above it (part 2i) and its length (part 2i+1).
 */
export interface Net {
  readonly rows: number;
  readonly pieces: number;
  readonly layout: Rows;
  readonly unknowns: Unknowns;
  /** Counter at the start and at the end of a run, reduced, metres; NaN where absent or set aside. Index 1..rows. */
  readonly from: Float64Array;
  readonly to: Float64Array;
  /** Mean of the soundings of the hole that the row's run found, and its variance; NaN where there is none. */
  readonly sounding: Float64Array;
  readonly soundingVariance: Float64Array;
  /** Part = mean + coefficient x global + normal error of this variance; parts with a site take it from there. */
  readonly partMean: Float64Array;
  readonly partVariance: Float64Array;
  readonly partCoefficient: Float64Array;
  readonly partGlobal: Int16Array;
  readonly partSite: Int32Array;
  /** Covariance of a length with the one above it in its row. */
  readonly joint: Float64Array;
  readonly biased: Uint8Array;
  /** Place of a column among `unknowns.wayColumns`. */
  readonly slot: Int8Array;
  /** Sums over a row's parts without sites: mean, variance (bias of the run in it), coefficients by slot. */
  readonly rowMean: Float64Array;
  readonly rowVariance: Float64Array;
  readonly rowCoefficient: Float64Array;
  /** Sites of a row's parts, a linked list: -1 ends it. */
  readonly firstSite: Int32Array;
  readonly nextSite: Int32Array;
  /** Sites: D - B of row r at r-1, fill met by row r at rows+r-1, then those of parts. */
  readonly sites: Sites;
  /** Sites in use; there is room for some more. */
  siteCount: number;
  /** Number of globals and their prior: mean, precision (globals x globals). */
  readonly globals: number;
  readonly globalMean: Float64Array;
  readonly globalPrecision: Float64Array;
  /** Prior of (B_0, D_0): mean, and precision as BB, BD, DD. */
  readonly startMean: readonly [number, number];
  readonly startPrecision: readonly [number, number, number];
  readonly runBiasVariance: number;
  readonly readingVariance: number;
}

/**
 * A free offset, for a look at what the readings say without one of them: of one counter reading, of all counter
 * readings from this row on, of the way of one row's core (more core than was logged), of the sounding that
 * precedes this row.
 */
export interface Opening {
  readonly kind: 'zero' | 'from' | 'to' | 'way' | 'sounding';
  readonly row: number;
}

/** A run without core: B_r = B_(r-1) to within this, metres squared (0.01 mm). A row that doesn't step: D likewise. */
export const STILL = 1e-10;
