import { type DepthAssumptions, defaultAssumptions } from '../depth/assumptions.ts';
import { DepthInputError } from '../depth/input-error.ts';
import type { DepthReadings } from '../depth/readings.ts';
import type { SolvedPiece, SolvedRun } from '../depth/solution.ts';
import { SOLVER, solveDepths } from '../depth/solve.ts';
import type { Metres } from '../units.ts';
import { type Change, changesBetween, type ThingChange } from './changes.ts';

/** A state of a hole's solved depths that people refer to: what came out, of what, by what. */
export interface DepthVersion {
  /** "v2". */
  readonly name: string;
  readonly hole: string;
  readonly solver: string;
  readonly assumptions: DepthAssumptions;
  readonly readings: DepthReadings;
  /** The entries that hold the readings, and the digest of the readings. */
  readonly entries: readonly string[];
  readonly digest: string;
  readonly runs: readonly SolvedRun[];
  readonly pieces: readonly SolvedPiece[];
}

/** What two states are compared by; a version is one. */
export type Solved = Pick<DepthVersion, 'readings' | 'assumptions' | 'solver' | 'pieces'>;

/** How far one change moved a piece; down is positive. */
export interface Cause {
  /** Index in `changes`. */
  readonly change: number;
  readonly top: Metres;
  readonly bottom: Metres;
}

export interface Movement {
  readonly piece: string;
  /** After less before; down is positive. */
  readonly top: Metres;
  readonly bottom: Metres;
  /** One for every change that moved it at all, the largest first; together they are the whole movement. */
  readonly causes: readonly Cause[];
}

export interface DepthDifference {
  /** In the order in which they were made. */
  readonly changes: readonly Change[];
  /** Pieces that are in both, in order of depth. */
  readonly moved: readonly Movement[];
  /** Pieces that are only in the second, and only in the first. */
  readonly appeared: readonly string[];
  readonly gone: readonly string[];
}

/** Smaller than any depth is written; what is left of rounding in the solver's sums. */
const NOTHING: Metres = 1e-9;

/**
 * What moved between two states of a hole's depths, and why: the changes are made one at a time, the hole is solved
 * again after each, and each answers for what moved then. O(changes x pieces).
 *
 * Two changes that act on the same ice share the movement by their order: what the first one takes is no longer there
 * for the second. The sum over all causes is the whole movement.
 *
 * @param rank place of a change in the order of entries; in the order of the things where it is left out. Runs
 *   come before what hangs on them whatever their rank
 */
export const diff = (
  before: Solved,
  after: Solved,
  rank: (change: Change) => number = () => 0,
): DepthDifference => {
  const changes: Change[] = [];
  const ends: (readonly SolvedPiece[])[] = [before.pieces];
  const step = (change: Change, pieces: readonly SolvedPiece[]) => {
    changes.push(change);
    ends.push(pieces);
  };
  let { readings } = before;
  // a version of an older solver may not know of every assumption
  let assumptions: DepthAssumptions = { ...defaultAssumptions, ...before.assumptions };
  const solve = (): readonly SolvedPiece[] => {
    try {
      return solveDepths(readings, assumptions).pieces;
    } catch (error) {
      // half of two things that belong together (a tray tape without its pieces): the next change answers for both
      if (error instanceof DepthInputError) return ends[ends.length - 1];
      throw error;
    }
  };
  if (before.solver !== SOLVER) step({ kind: 'solver', before: before.solver, after: SOLVER }, solve());
  for (const name of Object.keys(after.assumptions) as (keyof DepthAssumptions)[]) {
    const change = {
      kind: 'assumption',
      name,
      before: assumptions[name],
      after: after.assumptions[name],
    } as const;
    if (change.before === change.after) continue;
    assumptions = { ...assumptions, [name]: change.after };
    step(change, solve());
  }
  for (const { change, apply } of inOrder(before.readings, after.readings, rank)) {
    readings = apply(readings);
    step(change, solve());
  }
  if (after.solver !== SOLVER) step({ kind: 'solver', before: SOLVER, after: after.solver }, after.pieces);
  const places = ends.map((pieces) => new Map(pieces.map((piece) => [piece.id, piece])));
  const old = places[0];
  const now = new Set(after.pieces.map(({ id }) => id));
  return {
    changes,
    moved: after.pieces.filter(({ id }) => old.has(id)).map((piece) => movement(piece, places)),
    appeared: after.pieces.filter(({ id }) => !old.has(id)).map(({ id }) => id),
    gone: before.pieces.filter(({ id }) => !now.has(id)).map(({ id }) => id),
  };
};

/** By rank; a change that would leave something without its run waits until its run is there. */
const inOrder = (
  before: DepthReadings,
  after: DepthReadings,
  rank: (change: Change) => number,
): readonly ThingChange[] => {
  const waiting = changesBetween(before, after)
    .map((one, i) => ({ one, i, rank: rank(one.change) }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .map(({ one }) => one);
  const out: ThingChange[] = [];
  let readings = before;
  while (waiting.length > 0) {
    const next = Math.max(
      0,
      waiting.findIndex((one) => one.isPossible(readings)),
    );
    const [change] = waiting.splice(next, 1);
    readings = change.apply(readings);
    out.push(change);
  }
  return out;
};

const movement = (piece: SolvedPiece, places: readonly ReadonlyMap<string, SolvedPiece>[]): Movement => {
  // a piece that is set aside for a moment (out of place, then not) stays where it was
  const tops: Metres[] = [];
  const bottoms: Metres[] = [];
  for (const at of places) {
    const there = at.get(piece.id);
    tops.push(there?.top.value ?? (tops.at(-1) as Metres));
    bottoms.push(there?.bottom.value ?? (bottoms.at(-1) as Metres));
  }
  const causes = tops
    .slice(1)
    .map((top, change) => ({
      change,
      top: top - tops[change],
      bottom: bottoms[change + 1] - bottoms[change],
    }))
    .filter(({ top, bottom }) => Math.abs(top) > NOTHING || Math.abs(bottom) > NOTHING)
    .sort((a, b) => Math.abs(b.bottom) - Math.abs(a.bottom));
  return {
    piece: piece.id,
    top: (tops.at(-1) as Metres) - tops[0],
    bottom: (bottoms.at(-1) as Metres) - bottoms[0],
    causes,
  };
};
