import type { Net } from './net.ts';
import { readingWeights } from './weights.ts';

/**
 * What the Gaussian solution of the chain works on (solve-chain.ts): block-tridiagonal in (B_r, D_r), bordered by the
 * globals, O(runs x globals^2). All unknowns are kept as a point of linearisation plus a deviation, so that
 * a hole of kilometres doesn't eat the digits of a millimetre.
 */
export interface Chain {
  readonly net: Net;
  /** Present estimate (posterior mean after `solveChain`). */
  readonly core: Float64Array;
  readonly hole: Float64Array;
  readonly global: Float64Array;
  /** Way from B_(r-1) to B_r: mean, coefficients of the globals (tape, fit, loss, unsure), variance. */
  readonly way: Float64Array;
  readonly wayCoefficient: Float64Array;
  readonly wayVariance: Float64Array;
  /** Covariance of (B_r, D_r) given the globals: BB, BD, DD; and of (B_(r-1), D_(r-1)) with (B_r, D_r): 4. */
  readonly cov: Float64Array;
  readonly cross: Float64Array;
  /** d(B_r, D_r)/d(globals) times the Cholesky factor of the globals' covariance: 2 x globals per run. */
  readonly pull: Float64Array;
  /** Cholesky factor of the globals' posterior covariance, lower, row by row. */
  readonly factor: Float64Array;
  /** Largest move of the last pass, in standard deviations. */
  move: number;
  // working columns
  /** What `readingWeights` gives, 4 per run. */
  readonly weights: Float64Array;
  readonly diagonal: Float64Array;
  readonly inverse: Float64Array;
  readonly couple: Float64Array;
  readonly right: Float64Array;
  /** Columns of the globals: 2 x globals per run, B and D side by side. */
  readonly columns: Float64Array;
  /** The globals' own precision (upper triangle) and right-hand side, chain eliminated. */
  readonly border: Float64Array;
  readonly borderRight: Float64Array;
}

export const makeChain = (net: Net): Chain => {
  const rows = net.runs + 1;
  const k = net.globals;
  const chain: Chain = {
    net,
    core: new Float64Array(rows),
    hole: new Float64Array(rows),
    global: Float64Array.from(net.globalMean),
    way: new Float64Array(rows),
    wayCoefficient: new Float64Array(rows * 4),
    wayVariance: new Float64Array(rows),
    cov: new Float64Array(rows * 3),
    cross: new Float64Array(rows * 4),
    pull: new Float64Array(rows * 2 * k),
    factor: new Float64Array(k * k),
    move: Number.POSITIVE_INFINITY,
    weights: new Float64Array(rows * 4),
    diagonal: new Float64Array(rows * 3),
    inverse: new Float64Array(rows * 3),
    couple: new Float64Array(rows * 2),
    right: new Float64Array(rows * 2),
    columns: new Float64Array(rows * 2 * k),
    border: new Float64Array(k * k),
    borderRight: new Float64Array(k),
  };
  weigh(chain);
  firstGuess(chain);
  return chain;
};

/**
 * The chain of another net of the same runs and globals, begun where `before` ended. It takes over the columns of
 * `before`, which must not be used again: new ones would cost as much as a sweep.
 */
export const goOn = (before: Chain, net: Net): Chain => {
  const chain = { ...before, net };
  weigh(chain);
  return chain;
};

const weigh = (chain: Chain): void => {
  for (let r = 1; r <= chain.net.runs; r++) readingWeights(chain.net, r, chain.weights, 4 * r);
};

/** Depths from the counter where it was read, else from the lengths: only a point to linearise at. */
const firstGuess = (chain: Chain): void => {
  const { net, core, hole } = chain;
  core[0] = net.startMean[0];
  hole[0] = net.startMean[1];
  for (let r = 1; r <= net.runs; r++) {
    let length = 0;
    for (let i = net.first[r]; i < net.first[r + 1]; i++) length += net.partMean[2 * i + 1];
    const counter = net.to[r];
    hole[r] = Number.isNaN(counter) ? hole[r - 1] + length : counter;
    core[r] = length > 0 ? hole[r] : core[r - 1];
  }
};
