import { depthReadings, type HoleView } from '@firnbook/campaign';
import { writeTable } from './write-table.ts';

/** The tables that `readDepthFiles` reads, as text. */
export interface ReadingsTables {
  readonly runs: string;
  readonly pieces: string;
  readonly soundings: string;
}

/**
 * What a hole's readings say about depth, as CSV in metres: the same readings that the solver is given, so that
 * solving these tables gives the same numbers as the book.
 */
export const writeReadings = (hole: HoleView): ReadingsTables => {
  const { runs, pieces, soundings } = depthReadings(hole);
  const runNumbers = new Map(hole.runs.map((run) => [run.id, run.number]));
  const pieceNumbers = new Map(
    hole.runs.flatMap((run) => run.pieces).map((piece) => [piece.id, piece.number]),
  );
  const numberOf = (run: string) => runNumbers.get(run) ?? null;
  return {
    runs: writeTable(
      ['run', 'depth_from_m', 'depth_to_m'],
      runs.map(({ id, from, to }) => [numberOf(id), from ?? null, to ?? null]),
    ),
    pieces: writeTable(
      ['run', 'piece', 'length_m', 'top_break', 'loss_m'],
      pieces.map(({ id, run, length, topBreak, loss }) => [
        numberOf(run),
        pieceNumbers.get(id) ?? null,
        length ?? null,
        topBreak,
        loss ?? null,
      ]),
    ),
    soundings: writeTable(
      ['after_run', 'hole_depth_m', 'sd_m'],
      soundings.map(({ afterRun, depth, sd }) => [numberOf(afterRun), depth, sd]),
    ),
  };
};
