import type { Chain } from './chain.ts';
import { Global } from './global.ts';
import { calmSites, coolSite, question, updateSite } from './sites.ts';
import { solveChain } from './solve-chain.ts';

/**
 * First half of a sweep of expectation propagation: the chain with the present stand-ins.
 *
 * @param held the globals stay where they are, see `solveChain`
 */
export const solveSweep = (chain: Chain, held: boolean): void => {
  if (solveChain(chain, held)) return;
  calmSites(chain.net.sites);
  solveChain(chain);
};

/** Rows that moved less than this since their sites were last refreshed may be left alone. */
const QUIET = 4e-3;

/**
 * Second half: every stand-in from its own one-sided term. The chain no longer agrees with them until it is solved.
 *
 * @param held with the globals held, what is seen through them is taken to be as it last was
 * @param quietly whether rows that lie still are left alone
 * @param cooling whether the others take shorter strides from now on: where two stories compete they would swing
 */
export const refreshSites = (chain: Chain, held: boolean, quietly: boolean, cooling = false): void => {
  const { unrest } = chain;
  if (cooling) for (let r = 1; r < unrest.length; r++) if (unrest[r] > SWINGING) cool(chain, r);
  if (!quietly) unrest.fill(Number.POSITIVE_INFINITY);
  refreshStubs(chain, held);
  refreshFills(chain, held);
  refreshParts(chain, held);
  for (let r = 0; r < unrest.length; r++) if (unrest[r] > QUIET) unrest[r] = 0;
};

/** A row that moves by more than this when most lie still. */
const SWINGING = 0.03;

const cool = ({ net }: Chain, r: number): void => {
  const { sites, rows, firstSite, nextSite } = net;
  coolSite(sites, r - 1);
  coolSite(sites, rows + r - 1);
  for (let site = firstSite[r]; site >= 0; site = nextSite[site]) coolSite(sites, site);
};

const levelVariance = (chain: Chain, level: number): number => {
  const { factor } = chain;
  const k = chain.net.globals;
  let sum = 0;
  for (let j = 0; j <= level; j++) sum += factor[level * k + j] ** 2;
  return sum;
};

const refreshStubs = (chain: Chain, held: boolean): void => {
  const { net, core, hole, cov, pull, factor, global, unrest } = chain;
  const { rows, globals: k, sites, layout } = net;
  const { side, room } = layout;
  const { lent } = sites;
  const line = Global.stub * k;
  const solid = 1 / levelVariance(chain, Global.stub);
  const level = global[Global.stub];
  for (let r = 1; r <= rows; r++) {
    const sign = side[r];
    if (sign === 0 || !(unrest[r] > QUIET)) continue;
    const site = r - 1;
    if (!held) {
      const at = r * 2 * k;
      let variance = 0;
      let covariance = 0;
      for (let j = 0; j < k; j++) {
        const t = pull[at + k + j] - pull[at + j];
        variance += t * t;
        covariance += t * factor[line + j];
      }
      lent[site] = sites.level[site] >= 0 ? variance - covariance * covariance * solid : variance;
    }
    const variance = cov[3 * r] - 2 * cov[3 * r + 1] + cov[3 * r + 2] + lent[site];
    const stub = hole[r] - core[r];
    question[0] = sign < 0 ? room[r] - stub : stub;
    question[1] = variance;
    question[2] = level;
    updateSite(sites, site, false, false);
  }
};

const refreshFills = (chain: Chain, held: boolean): void => {
  const { net, hole, cov, cross, pull, factor, global, weights, unrest } = chain;
  const { driftCov, driftCross, driftPull } = chain;
  const { rows, globals: k, sites, unknowns } = net;
  const { ties } = unknowns;
  const { lent } = sites;
  const line = Global.fill * k;
  const solid = 1 / levelVariance(chain, Global.fill);
  const level = global[Global.fill];
  for (let r = 1; r <= rows; r++) {
    if (!(unrest[r] > QUIET)) continue;
    const n0 = weights[4 * r];
    const n1 = weights[4 * r + 1];
    const n2 = weights[4 * r + 3];
    const seen = n0 + n2;
    if (seen === 0) continue;
    const site = rows + r - 1;
    const own = 1 / (sites.p[site] + seen);
    const tie = sites.level[site] >= 0 ? sites.c[site] : 0;
    const above = hole[r - 1];
    const below = hole[r];
    const scale = chain.scale[r];
    const offset = chain.offset[r];
    const e0 = n0 > 0 ? net.from[r] - above * scale - offset : 0;
    const e1 = weights[4 * r + 2] > 0 ? net.to[r] - below * scale - offset : 0;
    const e2 = n2 > 0 ? net.sounding[r] - above - chain.soundingOffset[r] : 0;
    const mean = own * (sites.g[site] - tie * level - n0 * e0 - n1 * e1 - n2 * e2);
    // fill as a linear function of D above, D below, and the globals
    const da = own * (n0 * scale + n2);
    const db = own * n1 * scale;
    const du = own * (n0 * above + n1 * below);
    if (!held) {
      const lead = -own * tie;
      const up = (r - 1) * 2 * k + k;
      const down = r * 2 * k + k;
      let variance = 0;
      let covariance = 0;
      const first = ties.from[r];
      const end = ties.from[r + 1];
      for (let j = 0; j < k; j++) {
        let t =
          da * pull[up + j] +
          db * pull[down + j] +
          du * (factor[j] + driftPull[k * r + j]) +
          lead * factor[line + j];
        for (let i = first; i < end; i++) {
          const coefficient = ties.counter[i] * (n0 + n1) + ties.sounding[i] * n2;
          t += own * coefficient * factor[ties.column[i] * k + j];
        }
        variance += t * t;
        covariance += t * factor[line + j];
      }
      lent[site] = variance - covariance * covariance * solid;
    }
    const variance =
      own +
      da * da * cov[3 * r - 1] +
      db * db * cov[3 * r + 2] +
      du * du * driftCov[3 * r + 2] +
      2 * (da * db * cross[4 * r + 3] + da * du * driftCross[5 * r + 1] + db * du * driftCov[3 * r + 1]) +
      lent[site];
    question[0] = mean;
    question[1] = variance;
    question[2] = level;
    updateSite(sites, site, false, false);
  }
};

/** What is left over of the way of a row, given everything: way less its parts' expectation. */
export interface Leftover {
  mean: number;
  /** Given the globals. */
  variance: number;
  /** In the globals' factor. */
  readonly pull: Float64Array;
}

/** @param whole whether the globals' pull is wanted too */
export const leftover = (chain: Chain, r: number, out: Leftover, whole = true): void => {
  const { net, core, cov, cross, pull, factor, global, way, wayCoefficient } = chain;
  const k = net.globals;
  const { wayColumns } = net.unknowns;
  const slots = wayColumns.length;
  const ways = slots * r;
  let mean = core[r] - core[r - 1] - way[r];
  for (let s = 0; s < slots; s++) mean -= wayCoefficient[ways + s] * global[wayColumns[s]];
  out.mean = mean;
  out.variance = cov[3 * r] + cov[3 * r - 3] - 2 * cross[4 * r];
  if (!whole) return;
  const here = r * 2 * k;
  const there = here - 2 * k;
  for (let j = 0; j < k; j++) out.pull[j] = pull[here + j] - pull[there + j];
  for (let s = 0; s < slots; s++) {
    const coefficient = wayCoefficient[ways + s];
    if (coefficient === 0) continue;
    const line = wayColumns[s] * k;
    for (let j = 0; j < k; j++) out.pull[j] -= coefficient * factor[line + j];
  }
};

const refreshParts = (chain: Chain, held: boolean): void => {
  const { net, factor, global, wayVariance, unrest } = chain;
  const { globals: k, sites, firstSite, nextSite } = net;
  const { lent } = sites;
  const solid = new Float64Array(k);
  for (const level of net.unknowns.levels) solid[level] = 1 / levelVariance(chain, level);
  const left: Leftover = { mean: 0, variance: 0, pull: new Float64Array(k) };
  for (let r = 1; r <= net.rows; r++) {
    if (firstSite[r] < 0 || !(unrest[r] > QUIET)) continue;
    leftover(chain, r, left, !held);
    for (let site = firstSite[r]; site >= 0; site = nextSite[site]) {
      const share = sites.v[site] / wayVariance[r];
      const column = sites.level[site];
      let mean = sites.a[site] + share * left.mean;
      let level = 0;
      if (column >= 0) {
        level = global[column];
        mean += sites.b[site] * level;
      }
      if (!held) {
        let variance = 0;
        let covariance = 0;
        const b = column >= 0 ? sites.b[site] : 0;
        const line = Math.max(0, column) * k;
        for (let j = 0; j < k; j++) {
          const t = b * factor[line + j] + share * left.pull[j];
          variance += t * t;
          covariance += t * factor[line + j];
        }
        lent[site] = column >= 0 ? variance - covariance * covariance * solid[column] : variance;
      }
      const variance = share * share * left.variance + sites.v[site] * (1 - share) + lent[site];
      question[0] = mean;
      question[1] = variance;
      question[2] = level;
      updateSite(sites, site, true, false);
    }
  }
};
