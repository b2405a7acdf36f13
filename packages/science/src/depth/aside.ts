/** Readings that the adjustment leaves out, by index (runs from 1, all else from 0). */
export interface Aside {
  readonly from: ReadonlySet<number>;
  readonly to: ReadonlySet<number>;
  readonly lengths: ReadonlySet<number>;
  /** Pieces above which any amount of ice may be missing. */
  readonly gaps: ReadonlySet<number>;
  readonly soundings: ReadonlySet<number>;
  /** Cable checks, and zeros whose measured height is left out. */
  readonly checks: ReadonlySet<number>;
  readonly heights: ReadonlySet<number>;
  /** Runs from which on the counter's zero is another one. */
  readonly zeros: readonly number[];
}

export const nothingAside: Aside = {
  from: new Set(),
  to: new Set(),
  lengths: new Set(),
  gaps: new Set(),
  soundings: new Set(),
  checks: new Set(),
  heights: new Set(),
  zeros: [],
};
