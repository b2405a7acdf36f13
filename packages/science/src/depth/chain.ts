// Longer than most: the passes share their work columns, and each step follows from the one before; taking them apart
// would turn a dozen numbers a run into arguments.

import { solveBorder } from './border.ts';
import { Global, type Net, type Opening, STILL } from './net.ts';

/**
 * Gaussian solution of the chain: block-tridiagonal in (B_r, D_r), bordered by the globals, one forward and one
 * backward pass, O(runs x globals^2). All unknowns are kept as a point of linearisation plus a deviation, so that
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
  /** log of the integral of prior x readings x sites, up to a constant of the same readings' count. */
  logMass: number;
  /** Largest move of the last pass, in standard deviations. */
  move: number;
  // working columns
  readonly diagonal: Float64Array;
  readonly inverse: Float64Array;
  readonly couple: Float64Array;
  readonly right: Float64Array;
}

const TWO_PI = 2 * Math.PI;

/** Way's coefficients in this order of globals. */
const WAY = [Global.tape, Global.fit, Global.loss, Global.unsure] as const;
const WAYS = WAY.length;

export const makeChain = (net: Net): Chain => {
  const rows = net.runs + 1;
  const k = net.globals;
  const chain: Chain = {
    net,
    core: new Float64Array(rows),
    hole: new Float64Array(rows),
    global: Float64Array.from(net.globalMean),
    way: new Float64Array(rows),
    wayCoefficient: new Float64Array(rows * WAYS),
    wayVariance: new Float64Array(rows),
    cov: new Float64Array(rows * 3),
    cross: new Float64Array(rows * 4),
    pull: new Float64Array(rows * 2 * k),
    factor: new Float64Array(k * k),
    logMass: 0,
    move: Number.POSITIVE_INFINITY,
    diagonal: new Float64Array(rows * 3),
    inverse: new Float64Array(rows * 3),
    couple: new Float64Array(rows * 2),
    right: new Float64Array(rows * 2 * (k + 1)),
  };
  firstGuess(chain);
  return chain;
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

/** Sums the parts of every run, with the present sites. */
const sumWays = (chain: Chain): void => {
  const { net, way, wayCoefficient, wayVariance } = chain;
  const { first, partSite, partMean, partVariance, partCoefficient, partGlobal, sites } = net;
  for (let r = 1; r <= net.runs; r++) {
    const from = first[r];
    const end = first[r + 1];
    let mean = 0;
    let variance = 0;
    let tape = 0;
    let fit = 0;
    let loss = 0;
    let unsure = 0;
    for (let part = 2 * from; part < 2 * end; part++) {
      const site = partSite[part];
      if (site >= 0) {
        mean += sites.a[site];
        variance += sites.v[site];
        if (sites.level[site] >= 0) unsure += sites.b[site];
      } else {
        mean += partMean[part];
        variance += partVariance[part];
        const global = partGlobal[part];
        if (global === Global.tape) tape += partCoefficient[part];
        else if (global === Global.fit) fit += partCoefficient[part];
        else if (global === Global.loss) loss += partCoefficient[part];
      }
    }
    const n = end - from;
    way[r] = mean;
    wayVariance[r] = n === 0 ? STILL : variance + n * n * net.runBiasVariance;
    const at = r * WAYS;
    wayCoefficient[at] = tape;
    wayCoefficient[at + 1] = fit;
    wayCoefficient[at + 2] = loss;
    wayCoefficient[at + 3] = unsure;
  }
};

/** Inverse of the covariance of (from, to, sounding) of run r, fill left out: 11, 12, 22, 33. Absent ones are 0. */
export const readingWeights = (net: Net, r: number, out: Float64Array): void => {
  const own = net.readingVariance + net.offsetVariance;
  const from = !Number.isNaN(net.from[r]);
  const to = !Number.isNaN(net.to[r]);
  out[0] = out[1] = out[2] = 0;
  if (from && to) {
    const determinant = own * own - net.offsetVariance * net.offsetVariance;
    out[0] = out[2] = own / determinant;
    out[1] = -net.offsetVariance / determinant;
  } else if (from) out[0] = 1 / own;
  else if (to) out[2] = 1 / own;
  out[3] = Number.isNaN(net.sounding[r]) ? 0 : 1 / net.soundingVariance[r];
};

const weights = new Float64Array(4);

/** What the sites of gaps say of the globals alone, into the border; and their part of the mass. */
const addParts = (net: Net, border: Float64Array, global: Float64Array, columns: number): number => {
  const { sites, runs } = net;
  let mass = 0;
  for (let s = 2 * runs; s < sites.count; s++) {
    mass += 0.5 * (sites.g[s] * sites.a[s] + Math.log(sites.v[s]));
    const level = sites.level[s];
    if (level < 0) continue;
    const at = global[level];
    const rest = sites.rest[s];
    const push = sites.push[s];
    border[level * columns + level] += rest;
    border[level * columns + columns - 1] += push - rest * at;
    mass += at * (push - 0.5 * rest * at);
  }
  return mass;
};

/** Which readings of run r an opening shifts: from, to, sounding. */
export const touches = (opening: Opening, r: number, out: Float64Array): boolean => {
  const { kind, run } = opening;
  if (kind === 'way' || (kind === 'zero' ? r < run : r !== run)) return false;
  out[0] = kind === 'zero' || kind === 'from' ? 1 : 0;
  out[1] = kind === 'zero' || kind === 'to' ? 1 : 0;
  out[2] = kind === 'sounding' ? 1 : 0;
  return true;
};
const touched = new Float64Array(3);
const opened = new Float64Array(3);

/** Present offsets of the readings of run r. */
export const openedReadings = (net: Net, r: number, global: Float64Array, out: Float64Array): void => {
  out.fill(0);
  for (let s = 0; s < net.openings.length; s++)
    if (touches(net.openings[s], r, touched))
      for (let i = 0; i < 3; i++) out[i] += touched[i] * global[Global.opening + s];
};

export const openedWay = (net: Net, r: number, global: Float64Array): number => {
  let sum = 0;
  for (let s = 0; s < net.openings.length; s++)
    if (net.openings[s].kind === 'way' && net.openings[s].run === r) sum += global[Global.opening + s];
  return sum;
};

/**
 * One pass: linearise at the present estimate, solve, take marginals. The sites are as they are.
 *
 * @returns false, with the estimate as it was, where the sites together are no normal distribution
 */
export const solveChain = (chain: Chain): boolean => {
  const { net, core, hole, global, diagonal, inverse, couple, right, cov, cross, pull, factor } = chain;
  const { runs, globals: k, sites, openings } = net;
  const columns = k + 1;
  const border = new Float64Array(k * columns);
  const block = 2 * columns;
  sumWays(chain);
  diagonal.fill(0);
  couple.fill(0);
  right.fill(0);

  // prior of the globals, in deviations
  let mass = 0;
  for (let i = 0; i < k; i++) {
    let push = 0;
    for (let j = 0; j < k; j++) {
      const weight = net.globalPrecision[i * k + j];
      border[i * columns + j] += weight;
      push += weight * (net.globalMean[j] - global[j]);
    }
    border[i * columns + k] += push;
    mass -= 0.5 * push * (net.globalMean[i] - global[i]);
  }
  {
    const [bb, bd, dd] = net.startPrecision;
    const b = net.startMean[0] - core[0];
    const d = net.startMean[1] - hole[0];
    diagonal[0] = bb;
    diagonal[1] = bd;
    diagonal[2] = dd;
    right[k] = bb * b + bd * d;
    right[columns + k] = bd * b + dd * d;
    mass -= 0.5 * (bb * b * b + 2 * bd * b * d + dd * d * d);
  }

  const scale = 1 + global[Global.cable];
  const fillLevel = global[Global.fill];
  const stubLevel = global[Global.stub];
  const { wayCoefficient, wayVariance, way } = chain;
  /** What a site says of its level alone. */
  const addLevel = (site: number, level: number, at: number): void => {
    border[level * columns + level] += sites.w[site];
    border[level * columns + k] += sites.h[site] - sites.w[site] * at;
    mass += at * (sites.h[site] - 0.5 * sites.w[site] * at);
  };
  for (let r = 1; r <= runs; r++) {
    const here = r * block;
    const there = here - block;
    // way of the core
    {
      const weight = 1 / wayVariance[r];
      const at = r * WAYS;
      const tape = wayCoefficient[at];
      const fit = wayCoefficient[at + 1];
      const loss = wayCoefficient[at + 2];
      const unsure = wayCoefficient[at + 3];
      const miss =
        way[r] +
        tape * global[Global.tape] +
        fit * global[Global.fit] +
        loss * global[Global.loss] +
        unsure * global[Global.unsure] +
        openedWay(net, r, global) -
        (core[r] - core[r - 1]);
      diagonal[3 * r] += weight;
      diagonal[3 * (r - 1)] += weight;
      couple[2 * r] -= weight;
      right[here + k] += weight * miss;
      right[there + k] -= weight * miss;
      mass -= 0.5 * (weight * miss * miss + Math.log(wayVariance[r]));
      for (let s = 0; s < openings.length; s++) {
        if (openings[s].kind !== 'way' || openings[s].run !== r) continue;
        const column = Global.opening + s;
        right[here + column] -= weight;
        right[there + column] += weight;
        border[column * columns + column] += weight;
        border[column * columns + k] -= weight * miss;
        for (let j = 0; j < WAYS; j++) border[WAY[j] * columns + column] += weight * wayCoefficient[at + j];
      }
      if (tape !== 0 || unsure !== 0 || fit !== 0 || loss !== 0) {
        for (let i = 0; i < WAYS; i++) {
          const ci = wayCoefficient[at + i];
          if (ci === 0) continue;
          const gi = WAY[i];
          right[here + gi] -= weight * ci;
          right[there + gi] += weight * ci;
          border[gi * columns + k] -= weight * ci * miss;
          for (let j = 0; j < WAYS; j++)
            border[gi * columns + WAY[j]] += weight * ci * wayCoefficient[at + j];
        }
      }
    }
    // stub
    {
      const site = r - 1;
      const weight = sites.p[site];
      const tie = sites.c[site];
      const stub = hole[r] - core[r];
      const pull = sites.g[site] - weight * stub - tie * stubLevel;
      diagonal[3 * r] += weight;
      diagonal[3 * r + 1] -= weight;
      diagonal[3 * r + 2] += weight;
      right[here + k] -= pull;
      right[here + columns + k] += pull;
      mass += stub * (sites.g[site] - 0.5 * weight * stub - tie * stubLevel);
      if (sites.level[site] >= 0) {
        right[here + Global.stub] -= tie;
        right[here + columns + Global.stub] += tie;
        border[Global.stub * columns + k] -= tie * stub;
        addLevel(site, Global.stub, stubLevel);
      }
    }
    // counter and soundings
    readingWeights(net, r, weights);
    const fillSite = runs + r - 1;
    const w0 = weights[0];
    const w1 = weights[1];
    const w2 = weights[2];
    const w3 = weights[3];
    if (w0 > 0 || w2 > 0 || w3 > 0) {
      const n0 = w0;
      const n1 = w1;
      const n2 = w3;
      const seen = n0 + n2;
      const spread = seen > 0 ? 1 / (sites.p[fillSite] + seen) : 0;
      const m00 = w0 - spread * n0 * n0;
      const m01 = w1 - spread * n0 * n1;
      const m02 = -spread * n0 * n2;
      const m11 = w2 - spread * n1 * n1;
      const m12 = -spread * n1 * n2;
      const m22 = w3 - spread * n2 * n2;
      openedReadings(net, r, global, opened);
      const above = hole[r - 1];
      const below = hole[r];
      const leveled = sites.level[fillSite] >= 0;
      const tie = leveled ? sites.c[fillSite] : 0;
      const e0 = w0 > 0 ? net.from[r] - above * scale - opened[0] : 0;
      const e1 = w2 > 0 ? net.to[r] - below * scale - opened[1] : 0;
      const e2 = w3 > 0 ? net.sounding[r] - above - opened[2] : 0;
      const k0 = sites.g[fillSite] - tie * fillLevel - n0 * e0 - n1 * e1 - n2 * e2;
      const fill = spread * k0;
      const x0 = w0 * e0 + w1 * e1 + fill * n0;
      const x1 = w1 * e0 + w2 * e1 + fill * n1;
      const x2 = w3 * e2 + fill * n2;
      const both = w0 > 0 && w2 > 0;
      mass += 0.5 * Math.log(both ? (w0 * w2 - w1 * w1) / TWO_PI ** 2 : Math.max(w0, w2, TWO_PI) / TWO_PI);
      if (w3 > 0) mass += 0.5 * Math.log(w3 / TWO_PI);
      mass -= 0.5 * (w0 * e0 * e0 + 2 * w1 * e0 * e1 + w2 * e1 * e1 + w3 * e2 * e2 - fill * k0);
      // columns times weights: D above, D below, cable, fill level
      const u0 = m00 * scale + m02;
      const u1 = m01 * scale + m12;
      const u2 = m02 * scale + m22;
      diagonal[3 * (r - 1) + 2] += scale * u0 + u2;
      diagonal[3 * r + 2] += scale * scale * m11;
      couple[2 * r + 1] += scale * u1;
      right[there + columns + k] += scale * x0 + x2;
      right[here + columns + k] += scale * x1;
      const c0 = m00 * above + m01 * below;
      const c1 = m01 * above + m11 * below;
      const c2 = m02 * above + m12 * below;
      right[there + columns + Global.cable] += scale * c0 + c2;
      right[here + columns + Global.cable] += scale * c1;
      border[Global.cable * columns + Global.cable] += above * c0 + below * c1;
      border[Global.cable * columns + k] += above * x0 + below * x1;
      const f0 = spread * tie * n0;
      const f1 = spread * tie * n1;
      const f2 = spread * tie * n2;
      if (seen > 0) {
        mass += 0.5 * Math.log(spread * TWO_PI);
        if (leveled) {
          right[there + columns + Global.fill] += scale * f0 + f2;
          right[here + columns + Global.fill] += scale * f1;
          border[Global.fill * columns + Global.fill] -= spread * tie * tie;
          border[Global.fill * columns + k] -= fill * tie;
          const crossed = above * f0 + below * f1;
          border[Global.fill * columns + Global.cable] += crossed;
          border[Global.cable * columns + Global.fill] += crossed;
          addLevel(fillSite, Global.fill, fillLevel);
        }
      }
      for (let s = 0; s < openings.length; s++) {
        if (!touches(openings[s], r, touched)) continue;
        const [t0, t1, t2] = touched;
        const column = Global.opening + s;
        const s0 = m00 * t0 + m01 * t1 + m02 * t2;
        const s1 = m01 * t0 + m11 * t1 + m12 * t2;
        const s2 = m02 * t0 + m12 * t1 + m22 * t2;
        right[there + columns + column] += scale * s0 + s2;
        right[here + columns + column] += scale * s1;
        border[column * columns + k] += t0 * x0 + t1 * x1 + t2 * x2;
        border[Global.cable * columns + column] += above * s0 + below * s1;
        border[Global.fill * columns + column] += f0 * t0 + f1 * t1 + f2 * t2;
        for (let o = 0; o <= s; o++) {
          if (!touches(openings[o], r, touched)) continue;
          border[(Global.opening + o) * columns + column] +=
            s0 * touched[0] + s1 * touched[1] + s2 * touched[2];
        }
      }
    }
  }
  mass += addParts(net, border, global, columns);

  // forward elimination; sign: unknown x, right-hand side h and border W with A x + W t = h
  for (let r = 0; r <= runs; r++) {
    const d = 3 * r;
    const here = r * block;
    if (r > 0) {
      const cb = couple[2 * r];
      const cd = couple[2 * r + 1];
      const p = d - 3;
      const ibb = inverse[p];
      const ibd = inverse[p + 1];
      const idd = inverse[p + 2];
      diagonal[d] -= cb * cb * ibb;
      diagonal[d + 1] -= cb * cd * ibd;
      diagonal[d + 2] -= cd * cd * idd;
      const above = here - block;
      for (let j = 0; j < columns; j++) {
        const b = right[above + j];
        const e = right[above + columns + j];
        right[here + j] -= cb * (ibb * b + ibd * e);
        right[here + columns + j] -= cd * (ibd * b + idd * e);
      }
    }
    const bb = diagonal[d];
    const bd = diagonal[d + 1];
    const dd = diagonal[d + 2];
    const determinant = bb * dd - bd * bd;
    inverse[d] = dd / determinant;
    inverse[d + 1] = -bd / determinant;
    inverse[d + 2] = bb / determinant;
    mass -= 0.5 * Math.log(determinant);
    const ibb = inverse[d];
    const ibd = inverse[d + 1];
    const idd = inverse[d + 2];
    const last = here + k;
    const hb = right[last];
    const hd = right[last + columns];
    mass += 0.5 * (ibb * hb * hb + 2 * ibd * hb * hd + idd * hd * hd);
    for (let i = 0; i < k; i++) {
      const wb = right[here + i];
      const wd = right[here + columns + i];
      if (wb === 0 && wd === 0) continue;
      const gb = ibb * wb + ibd * wd;
      const gd = ibd * wb + idd * wd;
      const row = i * columns;
      for (let j = i; j < columns; j++)
        border[row + j] -= gb * right[here + j] + gd * right[here + columns + j];
    }
  }
  const change = solveBorder(border, k, columns, factor);
  if (!change.sound) return false;
  mass += change.logMass;

  // backward: estimate, covariance given the globals, pull of the globals
  let worst = 0;
  for (let r = runs; r >= 0; r--) {
    const d = 3 * r;
    const here = r * block;
    const ibb = inverse[d];
    const ibd = inverse[d + 1];
    const idd = inverse[d + 2];
    if (r < runs) {
      const below = here + block;
      const cb = couple[2 * r + 2];
      const cd = couple[2 * r + 3];
      for (let j = 0; j < columns; j++) {
        right[here + j] -= cb * right[below + j];
        right[here + columns + j] -= cd * right[below + columns + j];
      }
      // J = inverse C: covariance = inverse + J cov J', cross = -J cov
      const n = d + 3;
      const vbb = cov[n];
      const vbd = cov[n + 1];
      const vdd = cov[n + 2];
      const jbb = ibb * cb;
      const jbd = ibd * cd;
      const jdb = ibd * cb;
      const jdd = idd * cd;
      const x = 4 * (r + 1);
      const xbb = -(jbb * vbb + jbd * vbd);
      const xbd = -(jbb * vbd + jbd * vdd);
      const xdb = -(jdb * vbb + jdd * vbd);
      const xdd = -(jdb * vbd + jdd * vdd);
      cross[x] = xbb;
      cross[x + 1] = xbd;
      cross[x + 2] = xdb;
      cross[x + 3] = xdd;
      cov[d] = ibb - (xbb * jbb + xbd * jbd);
      cov[d + 1] = ibd - (xbb * jdb + xbd * jdd);
      cov[d + 2] = idd - (xdb * jdb + xdd * jdd);
    } else {
      cov[d] = ibb;
      cov[d + 1] = ibd;
      cov[d + 2] = idd;
    }
    for (let j = 0; j < columns; j++) {
      const b = right[here + j];
      const e = right[here + columns + j];
      right[here + j] = ibb * b + ibd * e;
      right[here + columns + j] = ibd * b + idd * e;
    }
    let moveB = right[here + k];
    let moveD = right[here + columns + k];
    for (let i = 0; i < k; i++) {
      moveB -= right[here + i] * change.move[i];
      moveD -= right[here + columns + i] * change.move[i];
    }
    core[r] += moveB;
    hole[r] += moveD;
    const at = r * 2 * k;
    let vb = cov[d];
    let vd = cov[d + 2];
    for (let j = 0; j < k; j++) {
      let b = 0;
      let e = 0;
      for (let i = j; i < k; i++) {
        const l = factor[i * k + j];
        b -= right[here + i] * l;
        e -= right[here + columns + i] * l;
      }
      pull[at + j] = b;
      pull[at + k + j] = e;
      vb += b * b;
      vd += e * e;
    }
    const m = Math.max((moveB * moveB) / vb, (moveD * moveD) / vd);
    if (!(m <= worst)) worst = m;
  }
  for (let i = 0; i < k; i++) global[i] += change.move[i];
  chain.move = Math.sqrt(worst);
  chain.logMass = mass;
  return true;
};
