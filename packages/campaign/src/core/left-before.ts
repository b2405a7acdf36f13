import type { TrayTape } from '@firnbook/science/depth';
import { isOutOfPlace } from '../depth/out-of-place.ts';
import { trayTapes } from '../depth/tray-tapes.ts';
import { standingPieces, standingRuns } from '../find.ts';
import { numberIn, textIn } from '../thing-view.ts';
import type { HoleView, PieceView, RunView } from '../view.ts';

/** What a run may have left whose counter or core nobody could read. Common practice, no source. */
const UNSEEN = 0.15;
/** Runs that are looked back on: what stood longer in the hole has come up. */
const BACK = 3;

/** What a run drilled by the counter; null where it was not read. */
export const advanceOf = (run: RunView): number | null => {
  const from = numberIn(run, 'from');
  const to = numberIn(run, 'to');
  return from === null || to === null ? null : to - from;
};

/** Pieces that are core and count. */
export const corePieces = (run: RunView): readonly PieceView[] =>
  standingPieces(run).filter((piece) => !isOutOfPlace(piece));

/** Ice that somebody says is gone above a piece. */
export const lostAbove = (piece: PieceView): number => {
  const topBreak = textIn(piece, 'topBreak');
  return topBreak === 'loss' || topBreak === 'ground' ? (numberIn(piece, 'loss') ?? 0) : 0;
};

/** Length of a piece by the tray tape where its run was read off one, else as it was measured. */
export function lengthOn(tape: TrayTape | undefined, piece: PieceView): number | null {
  const laid = tape?.breaks.find((one) => one.piece === piece.id);
  return laid === undefined ? numberIn(piece, 'length') : laid.bottom - laid.top;
}

/** Core that the runs just before drilled and did not bring up: it may come now. Metres. */
export function leftBefore(hole: HoleView, run: RunView): number {
  const before = standingRuns(hole).filter((one) => one.number < run.number);
  const tapes = trayTapes(hole);
  let left = 0;
  for (const one of before.slice(-BACK)) {
    const stub = numberIn(one, 'stub') ?? 0;
    const pieces = corePieces(one);
    // Pieces that nobody has logged yet say nothing.
    if (!one.nothingRecovered && pieces.length === 0) left = Math.max(left, stub);
    else left = Math.max(0, stub, left + leftBy(one, pieces, tapes.get(one.id)));
  }
  return left;
}

function leftBy(run: RunView, pieces: readonly PieceView[], tape: TrayTape | undefined): number {
  const advance = advanceOf(run);
  let core = 0;
  for (const piece of pieces) {
    const length = lengthOn(tape, piece);
    if (length === null) return UNSEEN;
    core += length + lostAbove(piece);
  }
  return advance === null ? UNSEEN : advance - core;
}
