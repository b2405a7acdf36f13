import type { DepthReadings, PieceReading, RunReading } from '../depth/readings.ts';
import type { DepthSolution } from '../depth/solution.ts';
import { tolerances } from '../depth/tolerances.ts';
import type { Metres } from '../units.ts';
import { type DepthScale, DepthScaleError, scaleName } from './depth.ts';
import { loggedGap, loggedLength } from './logged.ts';
import { longestRise, piecewise } from './piecewise.ts';

/** An end of a piece of core: what all scales of a hole have in common is the ice. */
export interface Place {
  readonly piece: string;
  readonly run: string;
  readonly end: 'top' | 'bottom';
}

/** One scale of one hole, at the places of its core. */
export interface ScaleOfHole {
  readonly hole: string;
  readonly scale: DepthScale;
  /** Top and bottom of every piece, in order of depth. */
  readonly places: readonly Place[];
  /** Depth of every place, never less than the one before; null where the scale does not reach. */
  readonly at: readonly (Metres | null)[];
  /** How far the depth of every place may be off from the true one; null for a scale that is a label only. */
  readonly sd: readonly Metres[] | null;
  /** Runs whose counter reading is left out, because it is set aside or the counter went back. */
  readonly leftOut: readonly string[];
  /** Pieces without a measured length: they have what their run's advance leaves over. */
  readonly filled: readonly string[];
  /** The piece from whose bottom on the scale does not reach, because nothing says how long it is. */
  readonly endsAt: string | null;
}

const placesOf = (solution: DepthSolution): readonly Place[] =>
  solution.pieces.flatMap(({ id, run }) => [
    { piece: id, run, end: 'top' } as const,
    { piece: id, run, end: 'bottom' } as const,
  ]);

const whole = { leftOut: [], filled: [], endsAt: null } as const;

/**
 * The solved depths as a scale.
 *
 * @param version name of the version; two versions are two scales
 */
export const solvedScale = (hole: string, solution: DepthSolution, version: string): ScaleOfHole => {
  const ends = solution.pieces.flatMap(({ top, bottom }) => [top, bottom]);
  let deepest = Number.NEGATIVE_INFINITY;
  return {
    hole,
    scale: { name: 'solved', version },
    places: placesOf(solution),
    // means of neighbours differ by rounding at most
    at: ends.map(({ value }) => (deepest = Math.max(deepest, value))),
    sd: ends.map(({ sd }) => sd),
    ...whole,
  };
};

/** Where a hole begins: at its zero, or where the counter stood if that is deeper than any first run reaches. */
const startOf = (readings: DepthReadings): Metres => {
  const first = readings.runs[0]?.from ?? 0;
  return first > tolerances.deepStart ? first : 0;
};

/**
 * Lengths and gaps as logged, added up from the zero. A piece that was not measured has what its run's advance leaves
 * over (common practice, no source); where that is nothing the scale ends.
 *
 * @param solution of these readings: it holds the order of the pieces
 */
export const loggerScale = (hole: string, readings: DepthReadings, solution: DepthSolution): ScaleOfHole => {
  const pieces = new Map(readings.pieces.map((piece) => [piece.id, piece]));
  const runs = new Map(readings.runs.map((run) => [run.id, run]));
  const rest = leftOver(readings.pieces, runs);
  const at: (Metres | null)[] = [];
  const filled: string[] = [];
  let depth: Metres | null = startOf(readings);
  let endsAt: string | null = null;
  for (const { id } of solution.pieces) {
    const piece = pieces.get(id);
    if (piece === undefined)
      throw new DepthScaleError(
        `Piece ${id} was solved but is not among the readings: solve these readings.`,
      );
    const measured = loggedLength(piece, runs.get(piece.run));
    const length = measured ?? rest.get(piece.run);
    if (depth !== null) depth += loggedGap(piece);
    at.push(depth);
    if (depth !== null && length === undefined) endsAt = id;
    if (depth !== null && length !== undefined && measured === undefined) filled.push(id);
    depth = depth === null || length === undefined ? null : depth + length;
    at.push(depth);
  }
  return {
    hole,
    scale: { name: 'logger' },
    places: placesOf(solution),
    at,
    sd: null,
    leftOut: [],
    filled,
    endsAt,
  };
};

/** For every run with pieces that were not measured: what each of them has of the advance. */
const leftOver = (
  pieces: readonly PieceReading[],
  runs: ReadonlyMap<string, RunReading>,
): ReadonlyMap<string, Metres> => {
  const sums = new Map<string, { length: Metres; unmeasured: number }>();
  for (const piece of pieces) {
    if (piece.outOfPlace === true) continue;
    const sum = sums.get(piece.run) ?? { length: 0, unmeasured: 0 };
    sums.set(piece.run, sum);
    const length = loggedLength(piece, runs.get(piece.run));
    sum.length += loggedGap(piece) + (length ?? 0);
    if (length === undefined) sum.unmeasured += 1;
  }
  const out = new Map<string, Metres>();
  for (const [run, { length, unmeasured }] of sums) {
    const { from, to } = runs.get(run) ?? {};
    if (unmeasured === 0 || from === undefined || to === undefined || to - from <= length) continue;
    out.set(run, (to - from - length) / unmeasured);
  }
  return out;
};

/**
 * What the counter showed when the drill was there: its reading at the end of every run stands at the solved bottom of
 * the hole, linear in between. Readings that the solution sets aside are left out, and the fewest of those that would
 * make the counter go back.
 */
export const drillerScale = (hole: string, readings: DepthReadings, solution: DepthSolution): ScaleOfHole => {
  const aside = new Set(
    solution.findings
      .filter(({ what, field, likely }) => what === 'run' && field === 'to' && likely !== 'zero changed')
      .map(({ which }) => which),
  );
  const to = new Map(readings.runs.map((run) => [run.id, run.to]));
  const start = startOf(readings);
  const read = solution.runs.flatMap(({ id, holeBottom }) => {
    const counter = to.get(id);
    return counter === undefined || aside.has(id) ? [] : [{ id, z: holeBottom.value, counter }];
  });
  // the zero itself stands whatever the counter says, unless the hole was begun at depth
  const own = start > 0 ? read : [{ id: null, z: 0, counter: 0 }, ...read];
  const kept = longestRise(own.map(({ counter }) => counter));
  const knots = kept.map((i) => own[i]);
  const left = new Set(knots.map(({ id }) => id));
  const counterAt = piecewise(
    knots.map(({ z }) => z),
    knots.map(({ counter }) => counter),
  );
  const ends = solution.pieces.flatMap(({ top, bottom }) => [top.value, bottom.value]);
  return {
    hole,
    scale: { name: 'driller' },
    places: placesOf(solution),
    at: read.length === 0 ? ends.map(() => null) : ends.map(counterAt),
    sd: null,
    leftOut: readings.runs.filter((run) => run.to !== undefined && !left.has(run.id)).map((run) => run.id),
    filled: [],
    endsAt: null,
  };
};

/** The same ice on a scale and on the one it is tied to. */
export interface Tie {
  readonly depth: Metres;
  readonly base: Metres;
}

/**
 * A scale that is known by ties to another one: nominal bag intervals, a laboratory's own depths, an imported table.
 * Linear between ties; does not reach beyond them.
 *
 * @param base another scale of the same hole
 * @throws DepthScaleError where there are fewer than two ties, or depths and base don't grow together
 */
export const tiedScale = (scale: DepthScale, base: ScaleOfHole, ties: readonly Tie[]): ScaleOfHole => {
  const called = scaleName(scale);
  const sorted = [...ties].sort((a, b) => a.base - b.base);
  if (sorted.length < 2)
    throw new DepthScaleError(
      `The scale "${called}" of ${base.hole} has fewer than two ties: add the depths of two places at least.`,
    );
  sorted.forEach((tie, i) => {
    if (!Number.isFinite(tie.depth) || !Number.isFinite(tie.base))
      throw new DepthScaleError(`A tie of the scale "${called}" of ${base.hole} is not a number.`);
    const before = sorted[i - 1];
    if (before !== undefined && !(tie.base > before.base && tie.depth > before.depth))
      throw new DepthScaleError(
        `On the scale "${called}" of ${base.hole} the ties ${before.depth} m and ${tie.depth} m stand at ${before.base} m and ${tie.base} m of ${scaleName(base.scale)}: correct the one that is out of order.`,
      );
  });
  const depthAt = piecewise(
    sorted.map((tie) => tie.base),
    sorted.map((tie) => tie.depth),
  );
  const first = sorted[0].base;
  const last = sorted[sorted.length - 1].base;
  return {
    hole: base.hole,
    scale,
    places: base.places,
    at: base.at.map((depth) => (depth === null || depth < first || depth > last ? null : depthAt(depth))),
    sd: null,
    ...whole,
  };
};
