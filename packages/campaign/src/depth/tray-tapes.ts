import type { TrayTape } from '@firnbook/science/depth';
import { findRun, standing, standingPieces } from '../find.ts';
import type { LengthsField } from '../kind.ts';
import { fieldOf, kindOf } from '../kinds.ts';
import { lengthsIn } from '../reading.ts';
import { textIn } from '../thing-view.ts';
import type { HoleView, PieceView, RunView, ThingView } from '../view.ts';
import { isOutOfPlace } from './out-of-place.ts';

/** No tray is longer, metres: a place beyond is no reading. */
const LONGEST = 20;

/** Tray tapes by run; the newest that can be read where a run has several. */
export function trayTapes(hole: HoleView): ReadonlyMap<string, TrayTape> {
  const tapes = new Map<string, TrayTape>();
  for (const tray of standing(hole.others.tray)) {
    const run = findRun(hole, textIn(tray, 'run'));
    const breaks = run === undefined ? null : breaksOf(tray, run);
    if (run !== undefined && breaks !== null) tapes.set(run.id, { breaks });
  }
  return tapes;
}

/**
 * Where each piece of the run begins and ends along the tape. Null where the places don't run downwards, or where they
 * are not as many as the pieces have ends: then nobody can tell which piece is meant.
 */
function breaksOf(tray: ThingView, run: RunView): TrayTape['breaks'] | null {
  const field = fieldOf(kindOf('tray')!, 'positions') as LengthsField;
  const at = lengthsIn(textIn(tray, 'positions'), field);
  const pieces = onTray(run, at.length);
  if (pieces === null) return null;
  if (at.some((one, index) => Math.abs(one) > LONGEST || (index > 0 && one < at[index - 1]!))) return null;
  const isPairs = at.length !== pieces.length + 1;
  return pieces.map((piece, index) => ({
    piece: piece.id,
    top: isPairs ? at[2 * index]! : at[index]!,
    bottom: isPairs ? at[2 * index + 1]! : at[index + 1]!,
  }));
}

/**
 * The pieces of a run that so many places are the ends of: of n pieces either n + 1 places are read (where it begins,
 * each break, where it ends) or 2 n (both ends of each). Snow off the wall and the like may have been laid on the tray
 * or not. Null where no such number of pieces is there, or where it could be either.
 */
export function onTray(run: RunView, places: number): readonly PieceView[] | null {
  const all = standingPieces(run);
  const core = all.filter((piece) => !isOutOfPlace(piece));
  const fitting = (core.length === all.length ? [all] : [core, all]).filter(
    ({ length: n }) => (n > 0 && places === n + 1) || (n > 1 && places === 2 * n),
  );
  return fitting.length === 1 ? fitting[0]! : null;
}
