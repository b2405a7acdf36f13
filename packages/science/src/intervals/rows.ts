import type { Metres } from '../units.ts';

/** A figure of a table: what it says, and half a unit in its last place. */
export interface Figure {
  readonly value: Metres;
  readonly half: Metres;
}

/** Bags of one row: "7" is first 7, last 7; "215-226" is first 215, last 226. */
export interface BagRange {
  readonly first: number;
  readonly last: number;
}

/** One row of a table of depth intervals, or of lengths with recorded depths. Absent: empty in the table. */
export interface IntervalRow {
  readonly top?: Figure;
  readonly bottom?: Figure;
  readonly length?: Figure;
  readonly bag?: BagRange;
}

export interface IntervalOptions {
  /** Nominal length of a bag; found from the table where it is not given. */
  readonly bagLength?: Metres;
}

/**
 * - gap: a row begins deeper than the row before ends; overlap: it begins higher
 * - length: the length is not bottom less top (or not the nominal length of the bags)
 * - bag: the depths are not those of the bags named
 * - reversed: the bottom lies above the top
 * - duplicate: the row, or its bag, stands in the table already
 */
export type MisfitKind = 'gap' | 'overlap' | 'length' | 'bag' | 'reversed' | 'duplicate';

export interface Misfit {
  readonly what: MisfitKind;
  /** Index of the row at which it shows. */
  readonly row: number;
  /** Index of the other row it lies between; null where the row is wrong in itself. */
  readonly before: number | null;
  /** Where: from the upper to the lower of the figures that disagree; null where the row names no depth. */
  readonly from: Metres | null;
  readonly to: Metres | null;
  /**
   * gap and overlap: how long, positive. length: length as written less what it should be. bag: depth as written
   * less the bag's. reversed: top less bottom, positive. duplicate: the length that is there twice, or null.
   */
  readonly size: Metres | null;
  /** What rounding of the figures explains at this place. */
  readonly tolerance: Metres;
  /** For 'bag': last row of those that are off by the same. */
  readonly through?: number;
}

export interface BagLength {
  readonly value: Metres;
  /** Half-width of what the figures allow; 0 when it was given or is a round number. */
  readonly half: Metres;
  readonly isGiven: boolean;
}

export interface Closure {
  /** In order of rows. */
  readonly misfits: readonly Misfit[];
  /** Rows that say something. */
  readonly rows: number;
  /** Junctions between two rows that could be compared. */
  readonly junctions: number;
  readonly lengths: number;
  readonly bags: number;
  /** Null where the table has no bags, or their length could not be found (`bagLengthUnknown`). */
  readonly bagLength: BagLength | null;
  readonly bagLengthUnknown: boolean;
  /** How the rows were read. */
  readonly order: 'as listed' | 'upwards' | 'sorted';
  /** Shallowest and deepest figure. */
  readonly top: Metres | null;
  readonly bottom: Metres | null;
}
