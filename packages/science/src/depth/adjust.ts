import { type Chain, makeChain } from './chain.ts';
import type { Net } from './net.ts';
import { sweep } from './sweep.ts';

export interface Adjusted {
  readonly chain: Chain;
  readonly sweeps: number;
  readonly converged: boolean;
}

/** Converged when no depth moves by more than this share of its standard deviation in one sweep. */
const STILL_ENOUGH = 0.03;

const MOST = 30;
/** Sweeps with the globals held between two with all unknowns free. */
const HELD = 3;
/** Held too early, globals that are still far off lead sites astray; standard deviations of the last whole move. */
const NEAR = 1.5;

/**
 * Sweeps until nothing moves, or `most` times; goes on with a chain that was begun. Once a whole sweep leaves the
 * globals nearly where they belong, most of the rest is done with the globals held, at a quarter of the work.
 * The last sweep is a whole one.
 */
export const adjust = (net: Net, most = MOST, chain = makeChain(net), begun = false): Adjusted => {
  let sweeps = 0;
  let converged = false;
  let whole = begun ? 0 : Number.POSITIVE_INFINITY;
  let held = 0;
  while (sweeps < most && !converged) {
    const still = held > 0 && chain.move < STILL_ENOUGH;
    const hold = whole < NEAR && held < HELD && !still && sweeps < most - 1;
    sweep(chain, hold);
    sweeps++;
    if (hold) {
      held++;
      continue;
    }
    held = 0;
    whole = chain.move;
    converged = sweeps > 1 && whole < STILL_ENOUGH;
  }
  return { chain, sweeps, converged };
};
