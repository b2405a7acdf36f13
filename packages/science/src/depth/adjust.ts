import type { Chain } from './chain.ts';
import { refreshSites, solveSweep } from './sweep.ts';

export interface Adjusted {
  readonly chain: Chain;
  readonly sweeps: number;
  readonly converged: boolean;
}

/** Converged when no depth moves by more than this share of its standard deviation in one sweep. */
const STILL_ENOUGH = 0.03;

const MOST = 150;
/** Sweeps with the globals held between two with all unknowns free, at first, and once only stragglers move. */
const HELD = 3;
const HELD_LATE = 12;
/** Held too early, globals that are still far off lead sites astray; standard deviations of the last whole move. */
const NEAR = 1.5;
/** From here on rows that lie still are left alone, standard deviations of the last whole move. */
const QUIETLY = 0.5;
/** Sweeps from there on before rows that still move are made to calm down. */
const PATIENCE = 5;
/**
 * Sweeps until nothing moves, or `most` times; goes on with a chain that was `begun`. Once a whole sweep leaves the
 * globals nearly where they belong, most of the rest is done with the globals held, at a quarter of the work.
 * The last sweep is a whole one. Where no `most` is given, and where it converged, the chain agrees with its
 * stand-ins afterwards.
 */
export const adjust = (chain: Chain, most?: number, begun = false): Adjusted => {
  const limit = most ?? MOST;
  let sweeps = 0;
  let converged = false;
  let whole = begun ? 0 : Number.POSITIVE_INFINITY;
  let held = 0;
  let late = 0;
  while (sweeps < limit && !converged) {
    const still = held > 0 && chain.move < STILL_ENOUGH;
    const hold = whole < NEAR && held < (whole < QUIETLY ? HELD_LATE : HELD) && !still && sweeps < limit - 1;
    solveSweep(chain, hold);
    sweeps++;
    if (whole < QUIETLY) late++;
    if (hold) held++;
    else {
      held = 0;
      whole = chain.move;
      converged = sweeps > 1 && whole < STILL_ENOUGH;
    }
    if (!converged && (most !== undefined || sweeps < limit)) {
      const cooling = most === undefined && late > PATIENCE;
      refreshSites(chain, hold, whole < QUIETLY, cooling);
    }
  }
  return { chain, sweeps, converged };
};
