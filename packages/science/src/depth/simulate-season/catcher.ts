import type { Random } from '../../random/index.ts';
import type { TruePiece } from './break-core.ts';
import { heavy, rounded } from './draws.ts';
import type { Trip } from './drill.ts';
import type { WrittenPiece } from './season.ts';

/** Share of marks that are seen; share of an earlier run's that are put to the run which brought the piece. */
const SEEN = 0.5;
const MISTAKEN = 0.02;
const MARK_SD = 0.01;
const STEP = 0.005;

/**
 * Where the catchers of this and of earlier runs scratched a piece: they close a little above the bottom of the hole,
 * also on ice that they then fail to hold. One mark for a piece, the lowest that is seen.
 */
export const catcherMark = (
  random: Random,
  trips: readonly Trip[],
  /** Place of the run that brought the piece, and of the first run that may have scratched it. */
  run: number,
  first: number,
  piece: TruePiece,
  height: number,
): WrittenPiece['catcherMark'] => {
  for (let r = run; r >= first; r--) {
    const at = trips[r].bottom - height;
    if (at <= piece.top || at >= piece.bottom || random.uniform() >= SEEN) continue;
    const below = rounded(at - piece.top + MARK_SD * heavy(random), STEP);
    const by = random.uniform() < MISTAKEN ? run : r;
    return { depth: Math.max(0, below), byRun: trips[by].id };
  }
  return undefined;
};
