import type {
  BreakClass,
  DepthReadings,
  PieceReading,
  RunReading,
  SoundingReading,
} from '@firnbook/science/depth';
import { findRun, standingPieces, standingRuns } from '../find.ts';
import { numberIn, textIn } from '../thing-view.ts';
import type { HoleView, PieceView, RunView, ThingView } from '../view.ts';

/** Standard deviation of a sounding where nobody said one: common practice, no source. */
const SOUNDING_SD = 0.02;
/** No hole in ice on Earth reaches it; a number beyond is no reading. */
const DEEPEST = 10_000;

/**
 * What a hole's readings say about depth, for the solver: in order of run and piece number, without what was
 * withdrawn, joined things once. A reading that no solver can use (a length that is not above zero, a negative
 * depth) is left out; the thing stays.
 */
export function depthReadings(hole: HoleView): DepthReadings {
  const runs = standingRuns(hole);
  return {
    runs: runs.map(runReading),
    pieces: runs.flatMap((run) => standingPieces(run).map(pieceReading)),
    soundings: hole.soundings.flatMap((one) => soundingReading(hole, one)),
  };
}

function runReading(run: RunView): RunReading {
  const from = usable(run, 'from', 0);
  const to = usable(run, 'to', 0);
  return { id: run.id, ...(from === null ? {} : { from }), ...(to === null ? {} : { to }) };
}

function pieceReading(piece: PieceView): PieceReading {
  const length = usable(piece, 'length', Number.MIN_VALUE);
  const loss = usable(piece, 'loss', 0);
  const topBreak = breakOf(piece);
  return {
    id: piece.id,
    run: piece.run,
    ...(length === null ? {} : { length }),
    topBreak,
    ...(loss === null || topBreak !== 'loss' ? {} : { loss }),
  };
}

function soundingReading(hole: HoleView, one: ThingView): readonly SoundingReading[] {
  const run = findRun(hole, textIn(one, 'afterRun'));
  const depth = usable(one, 'depth', 0);
  if (one.withdrawn !== null || run === undefined || run.withdrawn !== null || depth === null) return [];
  return [{ id: one.id, afterRun: run.id, depth, sd: usable(one, 'sd', 1e-4) ?? SOUNDING_SD }];
}

function breakOf(piece: PieceView): BreakClass {
  const word = textIn(piece, 'topBreak');
  return word === 'fits' || word === 'loss' ? word : 'unsure';
}

function usable(thing: ThingView, field: string, least: number): number | null {
  const value = numberIn(thing, field);
  return value !== null && value >= least && value <= DEEPEST ? value : null;
}

/**
 * The entries behind a hole's solved depths: every depth hangs on all readings that the solver was given (J8).
 * Oldest thing first, each entry once.
 */
export function depthSources(hole: HoleView): readonly string[] {
  const fields = ['number', 'from', 'to', 'run', 'length', 'topBreak', 'loss', 'afterRun', 'depth', 'sd'];
  const runs = standingRuns(hole);
  const soundings = hole.soundings.filter((one) => one.withdrawn === null);
  const things: readonly ThingView[] = [
    ...runs.flatMap((run) => [run, ...standingPieces(run)]),
    ...soundings,
  ];
  const entries = things.flatMap((thing) =>
    fields
      .filter((field) => Object.hasOwn(thing.readings, field))
      .map((field) => thing.readings[field]!.entry),
  );
  return [...new Set(entries)];
}
