import type { Chain } from './chain.ts';
import { Global, STILL } from './net.ts';
import { makeSites, type Sites, startSite } from './sites.ts';
import { readingWeights, zeroOffset } from './weights.ts';

/**
 * Some runs of the chain, the rest standing in: the globals are held where the whole hole puts them, and the hole
 * above gives the distribution of where the stretch begins. What that owes to the stretch itself is counted twice,
 * which is harmless for comparing what happened at its centre: some runs away each hole bottom rests on its own
 * counter readings. With the globals held all is linear, so that depths are deviations from the chain's estimate.
 */
export interface Stretch {
  readonly runs: number;
  /** Run r of the stretch is run `above + r` of the hole. */
  readonly above: number;
  readonly scale: number;
  /** Precision of (B_0, D_0): BB, BD, DD. */
  readonly start: readonly [number, number, number];
  /** Per run, 8 numbers: misses of from, to, sounding; their weights 11, 12, 22, 33; stub at the estimate. */
  readonly readings: Float64Array;
  /** What a run's way, without its one-sided parts, is more than the estimate; its variance. */
  readonly wayMiss: Float64Array;
  readonly wayVariance: Float64Array;
  /** Sites: stub of run r at r-1, fill at runs+r-1, parts of run r from firstPart[r] to firstPart[r+1]-1. */
  readonly firstPart: Int32Array;
  readonly sites: Sites;
  /** Number of sites; `sites` has room for more. */
  readonly count: number;
  /** What the sites are rewound to: p, g, seen, seenVariance, evidence; as the chain left them, level held. */
  readonly kept: Float64Array;
}

/** Numbers a run in `readings`. */
export const READINGS = 8;

const weights = new Float64Array(4);

const KEPT = 5;
/** One set of sites for all stretches, which are looked at one after the other. */
let work = makeSites(128);

/** Site `from` of the chain, its level held, becomes site `to`. */
const hold = (chain: Chain, from: number, sites: Sites, kept: Float64Array, to: number): void => {
  const old = chain.net.sites;
  const level = old.level[from];
  const l = level < 0 ? 0 : chain.global[level];
  sites.mean[to] = level < 0 ? old.mean[from] : old.mean[from] * Math.exp(l);
  sites.rare[to] = old.rare[from];
  sites.rareMean[to] = old.rareMean[from];
  const at = KEPT * to;
  kept[at] = old.p[from];
  kept[at + 1] = old.g[from] - old.c[from] * l;
  kept[at + 3] = Number.POSITIVE_INFINITY;
};

export const stretch = (chain: Chain, centre: number, reach: number): Stretch => {
  const { net, global, core, hole, cov } = chain;
  const low = Math.max(1, centre - reach);
  const runs = Math.min(net.runs, centre + reach) - low + 1;
  const above = low - 1;
  const scale = 1 + global[Global.cable];
  const firstPart = new Int32Array(runs + 2);
  firstPart[1] = 2 * runs;
  for (let r = 1; r <= runs; r++) {
    let count = 0;
    for (let part = 2 * net.first[above + r]; part < 2 * net.first[above + r + 1]; part++)
      if (net.partSite[part] >= 0) count++;
    firstPart[r + 1] = firstPart[r] + count;
  }
  const count = firstPart[runs + 1];
  if (work.count < count) work = makeSites(2 * count);
  const sites = work;
  const kept = new Float64Array(KEPT * count);
  const readings = new Float64Array((runs + 1) * READINGS);
  const wayMiss = new Float64Array(runs + 1);
  const wayVariance = new Float64Array(runs + 1);
  for (let r = 1; r <= runs; r++) {
    const run = above + r;
    hold(chain, run - 1, sites, kept, r - 1);
    hold(chain, net.runs + run - 1, sites, kept, runs + r - 1);
    readingWeights(net, run, weights);
    const offset = zeroOffset(net, run, global);
    const at = r * READINGS;
    if (weights[0] > 0) readings[at] = net.from[run] - hole[run - 1] * scale - offset;
    if (weights[2] > 0) readings[at + 1] = net.to[run] - hole[run] * scale - offset;
    if (weights[3] > 0) readings[at + 2] = net.sounding[run] - hole[run - 1];
    for (let i = 0; i < 4; i++) readings[at + 3 + i] = weights[i];
    readings[at + 7] = hole[run] - core[run];
    let site = firstPart[r];
    let mean = 0;
    let variance = 0;
    for (let part = 2 * net.first[run]; part < 2 * net.first[run + 1]; part++) {
      if (net.partSite[part] >= 0) {
        hold(chain, net.partSite[part], sites, kept, site++);
        continue;
      }
      mean += net.partMean[part] + net.partCoefficient[part] * global[net.partGlobal[part]];
      variance += net.partVariance[part];
    }
    const n = net.first[run + 1] - net.first[run];
    wayMiss[r] = mean - (core[run] - core[run - 1]);
    wayVariance[r] = n === 0 ? STILL : variance + n * n * net.runBiasVariance;
  }
  const vbb = cov[3 * above];
  const vbd = cov[3 * above + 1];
  const vdd = cov[3 * above + 2];
  const determinant = vbb * vdd - vbd * vbd;
  const start = [vdd / determinant, -vbd / determinant, vbb / determinant] as const;
  return { runs, above, scale, start, readings, wayMiss, wayVariance, firstPart, sites, count, kept };
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
    sites.evidence[i] = kept[at + 4];
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
    kept[at + 4] = sites.evidence[i];
  }
};

/** Sites of runs `from` to `to` as if nothing were known of them. */
export const restart = (t: Stretch, from: number, to: number, stride: number): void => {
  const { runs, firstPart } = t;
  for (let r = Math.max(1, from); r <= Math.min(runs, to); r++) {
    again(t.sites, r - 1, stride);
    again(t.sites, runs + r - 1, stride);
    for (let i = firstPart[r]; i < firstPart[r + 1]; i++) again(t.sites, i, stride);
  }
};

const again = (s: Sites, i: number, stride: number): void => {
  startSite(s, i, -1, s.mean[i], s.rare[i], s.rareMean[i]);
  s.seenVariance[i] = Number.POSITIVE_INFINITY;
  s.stride[i] = stride;
  s.last[i] = 0;
};
