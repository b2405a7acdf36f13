import { type Chain, makeChain } from './chain.ts';
import type { Net } from './net.ts';
import { sweep } from './sweep.ts';

export interface Adjusted {
  readonly chain: Chain;
  readonly sweeps: number;
  readonly converged: boolean;
  readonly logEvidence: number;
}

/** Converged when no depth moves by more than this share of its standard deviation in one sweep. */
const STILL_ENOUGH = 0.03;

const MOST = 30;

/** Sweeps until nothing moves, or `most` times; goes on with a chain that was begun. */
export const adjust = (net: Net, most = MOST, chain = makeChain(net)): Adjusted => {
  let logEvidence = 0;
  let sweeps = 0;
  let converged = false;
  while (sweeps < most && !converged) {
    logEvidence = sweep(chain);
    sweeps++;
    converged = sweeps > 1 && chain.move < STILL_ENOUGH;
  }
  return { chain, sweeps, converged, logEvidence };
};
