import type { Chain } from './chain.ts';
import { Global } from './global.ts';
import type { Opening } from './net.ts';
import { emptyTilted, logMass, tilt } from './one-sided.ts';
import type { Sites } from './sites.ts';
import { type Leftover, leftover } from './sweep.ts';

/** Where something may be wrong, and which reading the signs point at. */
export interface Suspect {
  readonly opening: Opening;
  /** How improbable what is seen there is, in nats (half the square of a normal deviate). */
  readonly score: number;
}

/** Less is seen by chance in about one run in twenty. */
const STRANGE = 5.5;
/** Two exponential tails together are that much longer at the same rarity. */
const SUM_OF_TWO = 1;

/**
 * What closes badly: the standardised residual of a core's way and of a sounding (W. Baarda 1968, w-test), a fill
 * far out in its one-sided distribution, all else given, or a stub and the next fill, which both grow when the end
 * of a run was read too deep. A screen only: what stands out is looked at closely. Worst first.
 */
export const suspects = (chain: Chain): Suspect[] => {
  const { net } = chain;
  const { sites, rows: runs, layout } = net;
  const out: Suspect[] = [];
  const left: Leftover = { mean: 0, variance: 0, pull: new Float64Array(net.globals) };
  const stubMean = Math.exp(chain.global[Global.stub]);
  const fillMean = Math.exp(chain.global[Global.fill]);
  const add = (kind: Opening['kind'], row: number, score: number) => {
    out.push({ opening: { kind, row }, score });
  };
  for (let r = 1; r <= runs; r++) {
    const stub = layout.side[r] > 0 && sites.level[r - 1] >= 0 ? ofSite(sites, r - 1, stubMean) : 0;
    const next = r < runs ? ofSite(sites, runs + r, fillMean) : 0;
    if (!Number.isNaN(net.from[r])) {
      const score = ofSite(sites, runs + r - 1, fillMean);
      if (score > STRANGE && surprise(sites, runs + r - 1, fillMean) > WORTH_A_LOOK) add('from', r, score);
    }
    if (!Number.isNaN(net.to[r])) {
      const score = stub + next - SUM_OF_TWO;
      if (score > STRANGE && both(sites, r - 1, stubMean, runs + r, fillMean)) add('to', r, score);
    }
    // ice that nobody logged leaves this stub and the next too long
    if (layout.part[r] < layout.part[r + 1]) {
      const w = ofWay(chain, r, left);
      const after = r < runs && sites.level[r] >= 0 ? ofSite(sites, r, stubMean) : 0;
      const score = Math.max((w * w) / 2, stub + after);
      if ((w * w) / 2 > STRANGE || (score > STRANGE && both(sites, r - 1, stubMean, r, stubMean)))
        add('way', r, score);
    }
    if (!Number.isNaN(net.sounding[r])) {
      const w = ofReadings(chain, r);
      if ((w * w) / 2 > STRANGE) add('sounding', r, (w * w) / 2);
    }
  }
  return out.sort((x, y) => y.score - x.score);
};

/** Nats that a slip must be able to gain to be looked at, and of two places that it touches at the least at each. */
const WORTH_A_LOOK = 4.2;
const AT_EACH = 1;

/** Two quantities that one slip would bend together; a single long one is what its rare component is for. */
const both = (sites: Sites, one: number, oneFactor: number, two: number, twoFactor: number): boolean => {
  const a = surprise(sites, one, oneFactor);
  if (!(a > AT_EACH)) return false;
  const b = surprise(sites, two, twoFactor);
  return b > AT_EACH && a + b > WORTH_A_LOOK;
};

const tilted = emptyTilted();
const asked = new Float64Array(5);
/** Places of the best value that are tried, in standard deviations above 0. */
const BEST = [0, 0.4, 0.8, 1.2, 1.6, 2, 2.8];

/** What the one-sided term would gain, in nats, if all else put its quantity where it is most probable. */
const surprise = (sites: Sites, i: number, factor: number): number => {
  const variance = sites.seenVariance[i];
  if (variance === Number.POSITIVE_INFINITY) return 0;
  const mean = sites.mean[i] * (sites.level[i] < 0 ? 1 : factor);
  const sd = Math.sqrt(variance);
  let best = Number.NEGATIVE_INFINITY;
  for (const place of BEST) best = Math.max(best, massAt(sites, i, place * sd, mean));
  return best - massAt(sites, i, sites.seen[i], mean);
};

const massAt = (sites: Sites, i: number, centre: number, mean: number): number => {
  asked[0] = centre;
  asked[1] = sites.seenVariance[i];
  asked[2] = mean;
  asked[3] = sites.rare[i];
  asked[4] = sites.rareMean[i];
  tilt(asked, tilted);
  return logMass(tilted);
};

/** Beyond its mean a one-sided quantity is judged by its own tail, exp(-q/mean), below it by the normal error. */
const ofSite = (sites: Sites, i: number, factor: number): number => {
  const variance = sites.seenVariance[i];
  if (variance === Number.POSITIVE_INFINITY) return 0;
  const seen = sites.seen[i];
  if (seen < 0) return (seen * seen) / variance / 2;
  return Math.max(0, (seen - Math.sqrt(variance)) / (sites.mean[i] * factor));
};

/** Way of the core against what its parts would be expected to be, their stand-ins taken out again. */
const ofWay = (chain: Chain, r: number, left: Leftover): number => {
  const { net, wayVariance, global } = chain;
  const { sites, layout, firstSite, nextSite } = net;
  if (layout.part[r] === layout.part[r + 1]) return 0;
  leftover(chain, r, left);
  let posterior = left.variance;
  for (let j = 0; j < net.globals; j++) posterior += left.pull[j] ** 2;
  const precision = 1 / posterior - 1 / wayVariance[r];
  if (!(precision > 1e-9 / posterior)) return 0;
  let misclosure = left.mean / posterior / precision;
  let variance = 1 / precision + wayVariance[r];
  for (let site = firstSite[r]; site >= 0; site = nextSite[site]) {
    // two readings of one length: its own business
    if (sites.twin[site] > 0) continue;
    const column = sites.level[site];
    const level = column >= 0 ? global[column] : 0;
    const mean = column >= 0 ? sites.mean[site] * Math.exp(level) : sites.mean[site];
    misclosure += sites.a[site] + (column >= 0 ? sites.b[site] * level : 0) - mean;
    variance += mean * mean - sites.v[site];
  }
  return variance > 0 ? Math.abs(misclosure) / Math.sqrt(variance) : 0;
};

const ofReadings = (chain: Chain, r: number): number => {
  const { net, hole, cov, cross, pull, factor, global, driftCov, driftCross, driftPull } = chain;
  const k = net.globals;
  const { ties } = net.unknowns;
  const [w0, w1, w2, w3] = chain.weights.subarray(4 * r, 4 * r + 4);
  if (w0 === 0 && w2 === 0 && w3 === 0) return 0;
  const site = net.rows + r - 1;
  const scale = chain.scale[r];
  const offset = chain.offset[r];
  const seen = w0 + w3;
  const spread = seen > 0 ? 1 / (net.sites.p[site] + seen) : 0;
  const tie = net.sites.level[site] >= 0 ? net.sites.c[site] : 0;
  const e0 = w0 > 0 ? net.from[r] - hole[r - 1] * scale - offset : 0;
  const e1 = w2 > 0 ? net.to[r] - hole[r] * scale - offset : 0;
  const e2 = w3 > 0 ? net.sounding[r] - hole[r - 1] - chain.soundingOffset[r] : 0;
  const fill = spread * (net.sites.g[site] - tie * global[Global.fill] - w0 * e0 - w1 * e1 - w3 * e2);
  const n = [w0, w1, w3];
  const inverse = [
    [w0, w1, 0],
    [w1, w2, 0],
    [0, 0, w3],
  ];
  const e = [e0, e1, e2];
  let worst = 0;
  for (let i = 0; i < 3; i++) {
    if (inverse[i][i] === 0) continue;
    // row i of the weights of (from, to, sounding), fill integrated out, and what it makes of depths and globals
    const row = [0, 1, 2].map((j) => inverse[i][j] - spread * n[i] * n[j]);
    const pulled = inverse[i][0] * e[0] + inverse[i][1] * e[1] + inverse[i][2] * e[2] + fill * n[i];
    const above = row[0] * scale + row[2];
    const below = row[1] * scale;
    const cable = row[0] * hole[r - 1] + row[1] * hole[r];
    const level = spread * n[i] * tie;
    let variance =
      above * above * cov[3 * r - 1] +
      below * below * cov[3 * r + 2] +
      cable * cable * driftCov[3 * r + 2] +
      2 * above * below * cross[4 * r + 3] +
      2 * cable * (above * driftCross[5 * r + 1] + below * driftCov[3 * r + 1]);
    for (let j = 0; j < k; j++) {
      let t =
        above * pull[(2 * r - 1) * k + j] +
        below * pull[(2 * r + 1) * k + j] +
        cable * (factor[j] + driftPull[k * r + j]) +
        level * factor[Global.fill * k + j];
      for (let m = ties.from[r]; m < ties.from[r + 1]; m++) {
        const counter = ties.counter[m] * (row[0] + row[1]);
        t += (counter + ties.sounding[m] * row[2]) * factor[ties.column[m] * k + j];
      }
      variance += t * t;
    }
    const left = row[i] - variance;
    if (left > 1e-6 * row[i]) worst = Math.max(worst, Math.abs(pulled) / Math.sqrt(left));
  }
  return worst;
};
