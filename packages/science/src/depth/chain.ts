import type { Net } from './net.ts';
import { gauge, readingWeights } from './weights.ts';

/**
 * What the Gaussian solution of the chain works on (solve-chain.ts): block-tridiagonal in (B_r, D_r, U_r), bordered by
 * the globals, O(rows x globals^2). U_r is the drift of the cable's scale at row r. All unknowns are kept as a point of linearisation plus a deviation, so that
 * a hole of kilometres doesn't eat the digits of a millimetre.
 */
export interface Chain {
  readonly net: Net;
  /** Present estimate (posterior mean after `solveChain`). */
  readonly core: Float64Array;
  readonly hole: Float64Array;
  readonly drift: Float64Array;
  readonly global: Float64Array;
  /** Way from B_(r-1) to B_r: mean, coefficients of the globals in `wayColumns`, variance. */
  readonly way: Float64Array;
  readonly wayCoefficient: Float64Array;
  readonly wayVariance: Float64Array;
  /** Covariance of (B_r, D_r) given the globals: BB, BD, DD; and of (B_(r-1), D_(r-1)) with (B_r, D_r): 4. */
  readonly cov: Float64Array;
  readonly cross: Float64Array;
  /**
   * Covariance of U_r given the globals: BU, DU, UU; and of the row above with this one: BU, DU, UU, then U above with B
   * and with D.
   */
  readonly driftCov: Float64Array;
  readonly driftCross: Float64Array;
  /** d(B_r, D_r)/d(globals) times the Cholesky factor of the globals' covariance: 2 x globals per run; and of U_r. */
  readonly pull: Float64Array;
  readonly driftPull: Float64Array;
  /** Cholesky factor of the globals' posterior covariance, lower, row by row. */
  readonly factor: Float64Array;
  /** Largest move of the last pass, in standard deviations. */
  move: number;
  /**
   * How far a row moved since its sites were last refreshed, in standard deviations, and how much its variances changed,
   * relatively; sites of a row that lies still need no look.
   */
  readonly unrest: Float64Array;
  // working columns
  /** What `readingWeights` gives, 4 per row, and what `gauge` gives. */
  readonly weights: Float64Array;
  readonly scale: Float64Array;
  readonly offset: Float64Array;
  readonly soundingOffset: Float64Array;
  readonly diagonal: Float64Array;
  readonly inverse: Float64Array;
  readonly couple: Float64Array;
  readonly right: Float64Array;
  /** Columns of the globals: 2 x globals per run, B and D side by side. */
  readonly columns: Float64Array;
  /** The same of U: DU and UU of the diagonal; BU, DU, UU of the inverse; D above with U, U above with U. */
  readonly driftDiagonal: Float64Array;
  readonly driftInverse: Float64Array;
  readonly driftCouple: Float64Array;
  readonly driftRight: Float64Array;
  readonly driftColumns: Float64Array;
  /** The globals' own precision (upper triangle) and right-hand side, chain eliminated. */
  readonly border: Float64Array;
  readonly borderRight: Float64Array;
}

export const makeChain = (net: Net): Chain => {
  const rows = net.rows + 1;
  const k = net.globals;
  const chain: Chain = {
    net,
    core: new Float64Array(rows),
    hole: new Float64Array(rows),
    drift: new Float64Array(rows),
    global: Float64Array.from(net.globalMean),
    way: new Float64Array(rows),
    wayCoefficient: new Float64Array(rows * net.unknowns.wayColumns.length),
    wayVariance: new Float64Array(rows),
    cov: new Float64Array(rows * 3),
    cross: new Float64Array(rows * 4),
    driftCov: new Float64Array(rows * 3),
    driftCross: new Float64Array(rows * 5),
    pull: new Float64Array(rows * 2 * k),
    driftPull: new Float64Array(rows * k),
    factor: new Float64Array(k * k),
    move: Number.POSITIVE_INFINITY,
    unrest: new Float64Array(rows).fill(Number.POSITIVE_INFINITY),
    weights: new Float64Array(rows * 4),
    scale: new Float64Array(rows),
    offset: new Float64Array(rows),
    soundingOffset: new Float64Array(rows),
    diagonal: new Float64Array(rows * 3),
    inverse: new Float64Array(rows * 3),
    couple: new Float64Array(rows * 2),
    right: new Float64Array(rows * 2),
    columns: new Float64Array(rows * 2 * k),
    driftDiagonal: new Float64Array(rows * 2),
    driftInverse: new Float64Array(rows * 3),
    driftCouple: new Float64Array(rows * 2),
    driftRight: new Float64Array(rows),
    driftColumns: new Float64Array(rows * k),
    border: new Float64Array(k * k),
    borderRight: new Float64Array(k),
  };
  weigh(chain);
  firstGuess(chain);
  return chain;
};

/**
 * The chain of another net of the same rows and globals, begun where `before` ended. It takes over the columns of
 * `before`, which must not be used again: new ones would cost as much as a sweep.
 */
export const goOn = (before: Chain, net: Net): Chain => {
  const chain = { ...before, net };
  chain.unrest.fill(Number.POSITIVE_INFINITY);
  weigh(chain);
  return chain;
};

const weigh = (chain: Chain): void => {
  for (let row = 1; row <= chain.net.rows; row++) readingWeights(chain.net, row, chain.weights, 4 * row);
  gaugeChain(chain);
};

/** After a move of the globals or of the scale's drift. */
export const gaugeChain = (chain: Chain): void =>
  gauge(chain.net, chain.global, chain.drift, chain.scale, chain.offset, chain.soundingOffset);

/** Depths from the counter where it was read, else from the lengths: only a point to linearise at. */
const firstGuess = (chain: Chain): void => {
  const { net, core, hole } = chain;
  const { layout } = net;
  core[0] = net.startMean[0];
  hole[0] = net.startMean[1];
  for (let row = 1; row <= net.rows; row++) {
    let length = 0;
    for (let part = layout.part[row]; part < layout.part[row + 1]; part++)
      if (part % 2 === 1) length += net.partMean[part];
    if (layout.steps[row] === 0) hole[row] = hole[row - 1];
    else {
      const counter = net.to[row];
      hole[row] = Number.isNaN(counter) ? hole[row - 1] + length : counter;
    }
    core[row] = length > 0 && layout.side[row] > 0 ? hole[row] : core[row - 1] + length;
  }
};
