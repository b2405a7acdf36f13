import type { Chain } from './chain.ts';
import { STILL } from './net.ts';
import { makeSites, type Sites, startSite, startTwin } from './sites.ts';
import { readingWeights } from './weights.ts';

/**
 * Some rows of the chain, the rest standing in: the globals are held where the whole hole puts them, and the hole
 * above gives the distribution of where the stretch begins. What that owes to the stretch itself is counted twice,
 * which is harmless for comparing what happened at its centre: some rows away each hole bottom rests on its own
 * counter readings. With the globals held all is linear, so that depths are deviations from the chain's estimate.
 */
export interface Stretch {
  readonly rows: number;
  /** Row r of the stretch is row `above + r` of the hole. */
  readonly above: number;
  /** Precision of (B_0, D_0, U_0): BB, BD, DD, BU, DU, UU. */
  readonly start: readonly [number, number, number, number, number, number];
  /** READINGS numbers a row, see there. */
  readonly readings: Float64Array;
  /** What a row's way, without its one-sided parts, is more than the estimate; its variance. */
  readonly wayMiss: Float64Array;
  readonly wayVariance: Float64Array;
  /** Sites: D - B of row r at r-1, fill at rows+r-1, parts of row r from firstPart[r] to firstPart[r+1]-1. */
  readonly firstPart: Int32Array;
  readonly sites: Sites;
  /** Number of sites; `sites` has room for more. */
  readonly count: number;
  /** What the sites are rewound to: p, g, seen, seenVariance, shape, scaled; as the chain left them, level held. */
  readonly kept: Float64Array;
}

/**
 * Numbers a row in `readings`: 0-2 misses of from, to, sounding; 3-6 their weights 11, 12, 22, 33; 7 one-sided quantity
 * of D - B at the estimate and 8 its sign; 9 weight and 10 miss of a reading of D - B; 11 weight that holds D where the
 * row above has it; 12 the counter's scale; 13 and 14 depth above and below, by which the scale's drift is felt; 15 weight
 * and 16 miss of the drift's step from the row above.
 */
export const READINGS = 17;

/** Rows on either side of the longest stretch. */
export const FARTHEST = 4;

const weights = new Float64Array(4);

const KEPT = 6;
/** One set of columns and sites for all stretches, which are looked at one after the other. */
let work = makeSites(128);
let kept = new Float64Array(KEPT * 128);
const ROOM = 2 * FARTHEST + 2;
const firstPart = new Int32Array(ROOM + 1);
const readings = new Float64Array(ROOM * READINGS);
const wayMiss = new Float64Array(ROOM);
const wayVariance = new Float64Array(ROOM);

/** Site `from` of the chain, its level held, becomes site `to`. */
const hold = (chain: Chain, from: number, sites: Sites, to: number): void => {
  const old = chain.net.sites;
  const level = old.level[from];
  const l = level < 0 ? 0 : chain.global[level];
  sites.mean[to] = level < 0 ? old.mean[from] : old.mean[from] * Math.exp(l);
  sites.rare[to] = old.rare[from];
  sites.rareMean[to] = old.rareMean[from];
  sites.twin[to] = old.twin[from];
  const at = KEPT * to;
  kept[at] = old.p[from];
  kept[at + 1] = old.g[from] - old.c[from] * l;
  kept[at + 2] = 0;
  kept[at + 3] = Number.POSITIVE_INFINITY;
  kept[at + 4] = 0;
  kept[at + 5] = 1;
};

/** @param reach rows on either side, FARTHEST at most; the result holds until the next call */
export const stretch = (chain: Chain, centre: number, reach: number): Stretch => {
  const { net, global, core, hole, drift, cov, driftCov } = chain;
  const { layout, firstSite, nextSite, unknowns } = net;
  const { wayColumns, driftVariance } = unknowns;
  const slots = wayColumns.length;
  const low = Math.max(1, centre - reach);
  const rows = Math.min(net.rows, centre + reach) - low + 1;
  const above = low - 1;
  firstPart[1] = 2 * rows;
  for (let r = 1; r <= rows; r++) {
    let count = 0;
    for (let site = firstSite[above + r]; site >= 0; site = nextSite[site]) count++;
    firstPart[r + 1] = firstPart[r] + count;
  }
  const count = firstPart[rows + 1];
  if (work.count < count) {
    work = makeSites(2 * count);
    kept = new Float64Array(KEPT * 2 * count);
  }
  const sites = work;
  readings.fill(0);
  for (let r = 1; r <= rows; r++) {
    const row = above + r;
    hold(chain, row - 1, sites, r - 1);
    hold(chain, net.rows + row - 1, sites, rows + r - 1);
    readingWeights(net, row, weights);
    const scale = chain.scale[row];
    const offset = chain.offset[row];
    const at = r * READINGS;
    if (weights[0] > 0) readings[at] = net.from[row] - hole[row - 1] * scale - offset;
    if (weights[2] > 0) readings[at + 1] = net.to[row] - hole[row] * scale - offset;
    if (weights[3] > 0) readings[at + 2] = net.sounding[row] - hole[row - 1] - chain.soundingOffset[row];
    for (let i = 0; i < 4; i++) readings[at + 3 + i] = weights[i];
    const apart = hole[row] - core[row];
    const side = layout.side[row];
    readings[at + 7] = side < 0 ? layout.room[row] - apart : apart;
    readings[at + 8] = side;
    if (!Number.isNaN(layout.apart[row])) {
      readings[at + 9] = 1 / layout.apartVariance[row];
      readings[at + 10] = layout.apart[row] - apart;
    }
    readings[at + 11] = layout.steps[row] === 0 ? 1 / STILL : 0;
    readings[at + 12] = scale;
    readings[at + 13] = hole[row - 1];
    readings[at + 14] = hole[row];
    readings[at + 15] = 1 / driftVariance[row];
    readings[at + 16] = drift[row - 1] - drift[row];
    let part = firstPart[r];
    for (let site = firstSite[row]; site >= 0; site = nextSite[site]) hold(chain, site, sites, part++);
    let mean = net.rowMean[row] - (core[row] - core[row - 1]);
    for (let s = 0; s < slots; s++) mean += net.rowCoefficient[slots * row + s] * global[wayColumns[s]];
    wayMiss[r] = mean;
    wayVariance[r] = net.rowVariance[row];
  }
  // inverse of the covariance where the stretch begins: U first
  const free = 1 / driftCov[3 * above + 2];
  const fb = driftCov[3 * above] * free;
  const fd = driftCov[3 * above + 1] * free;
  const vbb = cov[3 * above] - fb * driftCov[3 * above];
  const vbd = cov[3 * above + 1] - fb * driftCov[3 * above + 1];
  const vdd = cov[3 * above + 2] - fd * driftCov[3 * above + 1];
  const determinant = vbb * vdd - vbd * vbd;
  const pbb = vdd / determinant;
  const pbd = -vbd / determinant;
  const pdd = vbb / determinant;
  const pbu = -(pbb * fb + pbd * fd);
  const pdu = -(pbd * fb + pdd * fd);
  const start = [pbb, pbd, pdd, pbu, pdu, free - fb * pbu - fd * pdu] as const;
  return { rows, above, start, readings, wayMiss, wayVariance, firstPart, sites, count, kept };
};

/** Sites as the chain left them, or as they were at the last `keep`. */
export const rewind = (t: Stretch): void => {
  const { sites, kept, count } = t;
  for (let i = 0; i < count; i++) {
    const at = KEPT * i;
    sites.p[i] = kept[at];
    sites.g[i] = kept[at + 1];
    sites.seen[i] = kept[at + 2];
    sites.seenVariance[i] = kept[at + 3];
    sites.shape[i] = kept[at + 4];
    sites.scaled[i] = kept[at + 5];
    sites.seenLevel[i] = 0;
    sites.v[i] = 1 / kept[at];
    sites.a[i] = kept[at + 1] * sites.v[i];
    sites.stride[i] = 0.9;
    sites.last[i] = 0;
  }
};

/** Sites that settled: where nothing new is seen they need no second look. */
export const keep = (t: Stretch): void => {
  const { sites, kept, count } = t;
  for (let i = 0; i < count; i++) {
    const at = KEPT * i;
    kept[at] = sites.p[i];
    kept[at + 1] = sites.g[i];
    kept[at + 2] = sites.seen[i];
    kept[at + 3] = sites.seenVariance[i];
    kept[at + 4] = sites.shape[i];
    kept[at + 5] = sites.scaled[i];
  }
};

/** Sites of rows `from` to `to` as if nothing were known of them. */
export const restart = (t: Stretch, from: number, to: number, stride: number): void => {
  const { rows, firstPart, readings } = t;
  for (let r = Math.max(1, from); r <= Math.min(rows, to); r++) {
    if (readings[READINGS * r + 8] !== 0) again(t.sites, r - 1, stride);
    if (readings[READINGS * r + 11] === 0) again(t.sites, rows + r - 1, stride);
    for (let i = firstPart[r]; i < firstPart[r + 1]; i++) again(t.sites, i, stride);
  }
};

const again = (s: Sites, i: number, stride: number): void => {
  if (s.twin[i] > 0) startTwin(s, i, s.mean[i], s.rareMean[i], s.twin[i]);
  else startSite(s, i, -1, s.mean[i], s.rare[i], s.rareMean[i]);
  s.stride[i] = stride;
};
