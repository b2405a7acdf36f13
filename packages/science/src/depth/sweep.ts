import type { Chain } from './chain.ts';
import { Global } from './net.ts';
import { calmSites, updateSite } from './sites.ts';
import { solveChain } from './solve-chain.ts';
import { zeroOffset } from './weights.ts';

/**
 * One sweep of expectation propagation: solve the chain with the present stand-ins, then refresh every stand-in
 * from its own one-sided term.
 *
 * @param held the globals stay where they are, see `solveChain`
 */
export const sweep = (chain: Chain, held: boolean): void => {
  if (!solveChain(chain, held)) {
    calmSites(chain.net.sites);
    solveChain(chain);
  }
  // with the globals held nothing is seen through them
  const k = held ? 0 : chain.net.globals;
  refreshStubs(chain, k);
  refreshFills(chain, k);
  refreshParts(chain, k);
};

const levelVariance = (chain: Chain, level: number): number => {
  const { factor } = chain;
  const k = chain.net.globals;
  let sum = 0;
  for (let j = 0; j <= level; j++) sum += factor[level * k + j] ** 2;
  return sum;
};

const refreshStubs = (chain: Chain, seenThrough: number): void => {
  const { net, core, hole, cov, pull, factor, global } = chain;
  const { runs, globals: k, sites } = net;
  const line = Global.stub * k;
  const solid = 1 / levelVariance(chain, Global.stub);
  const level = global[Global.stub];
  for (let r = 1; r <= runs; r++) {
    const at = r * 2 * k;
    let variance = cov[3 * r] - 2 * cov[3 * r + 1] + cov[3 * r + 2];
    let covariance = 0;
    for (let j = 0; j < seenThrough; j++) {
      const t = pull[at + k + j] - pull[at + j];
      variance += t * t;
      covariance += t * factor[line + j];
    }
    updateSite(
      sites,
      r - 1,
      hole[r] - core[r],
      variance - covariance * covariance * solid,
      level,
      false,
      false,
    );
  }
};

const refreshFills = (chain: Chain, seenThrough: number): void => {
  const { net, hole, cov, cross, pull, factor, global, weights } = chain;
  const { runs, globals: k, sites, zeros } = net;
  const line = Global.fill * k;
  const solid = 1 / levelVariance(chain, Global.fill);
  const level = global[Global.fill];
  const scale = 1 + global[Global.cable];
  for (let r = 1; r <= runs; r++) {
    const n0 = weights[4 * r];
    const n1 = weights[4 * r + 1];
    const n2 = weights[4 * r + 3];
    const seen = n0 + n2;
    if (seen === 0) continue;
    const site = runs + r - 1;
    const own = 1 / (sites.p[site] + seen);
    const tie = sites.level[site] >= 0 ? sites.c[site] : 0;
    const above = hole[r - 1];
    const below = hole[r];
    const offset = zeros.length === 0 ? 0 : zeroOffset(net, r, global);
    const e0 = n0 > 0 ? net.from[r] - above * scale - offset : 0;
    const e1 = weights[4 * r + 2] > 0 ? net.to[r] - below * scale - offset : 0;
    const e2 = n2 > 0 ? net.sounding[r] - above : 0;
    const mean = own * (sites.g[site] - tie * level - n0 * e0 - n1 * e1 - n2 * e2);
    // fill as a linear function of D above, D below, and the globals
    const da = own * (n0 * scale + n2);
    const db = own * n1 * scale;
    const cable = own * (n0 * above + n1 * below);
    const lead = -own * tie;
    const up = (r - 1) * 2 * k + k;
    const down = r * 2 * k + k;
    let variance = own + da * da * cov[3 * r - 1] + db * db * cov[3 * r + 2] + 2 * da * db * cross[4 * r + 3];
    let covariance = 0;
    for (let j = 0; j < seenThrough; j++) {
      let t = da * pull[up + j] + db * pull[down + j] + cable * factor[j] + lead * factor[line + j];
      for (let s = 0; s < zeros.length; s++)
        if (zeros[s] <= r) t += own * (n0 + n1) * factor[(Global.zero + s) * k + j];
      variance += t * t;
      covariance += t * factor[line + j];
    }
    updateSite(sites, site, mean, variance - covariance * covariance * solid, level, false, false);
  }
};

/** What is left over of the way of run r, given everything: way less its parts' expectation. */
export interface Leftover {
  mean: number;
  /** Given the globals. */
  variance: number;
  /** In the globals' factor. */
  readonly pull: Float64Array;
}

/** @param seenThrough globals whose pull is wanted */
export const leftover = (chain: Chain, r: number, out: Leftover, seenThrough = chain.net.globals): void => {
  const { net, core, cov, cross, pull, factor, global, way, wayCoefficient } = chain;
  const k = net.globals;
  const at = 4 * r;
  const tape = wayCoefficient[at];
  const fit = wayCoefficient[at + 1];
  const loss = wayCoefficient[at + 2];
  const unsure = wayCoefficient[at + 3];
  out.mean =
    core[r] -
    core[r - 1] -
    way[r] -
    tape * global[Global.tape] -
    fit * global[Global.fit] -
    loss * global[Global.loss] -
    unsure * global[Global.unsure];
  out.variance = cov[3 * r] + cov[3 * r - 3] - 2 * cross[at];
  const here = r * 2 * k;
  const there = here - 2 * k;
  for (let j = 0; j < seenThrough; j++)
    out.pull[j] =
      pull[here + j] -
      pull[there + j] -
      tape * factor[Global.tape * k + j] -
      fit * factor[Global.fit * k + j] -
      loss * factor[Global.loss * k + j] -
      unsure * factor[Global.unsure * k + j];
};

const refreshParts = (chain: Chain, seenThrough: number): void => {
  const { net, factor, global, wayVariance } = chain;
  const { globals: k, sites, first, partSite } = net;
  const line = Global.unsure * k;
  const solid = 1 / levelVariance(chain, Global.unsure);
  const level = global[Global.unsure];
  const left: Leftover = { mean: 0, variance: 0, pull: new Float64Array(k) };
  for (let r = 1; r <= net.runs; r++) {
    let known = false;
    for (let part = 2 * first[r]; part < 2 * first[r + 1]; part++) {
      const site = partSite[part];
      if (site < 0) continue;
      if (!known) leftover(chain, r, left, seenThrough);
      known = true;
      const share = sites.v[site] / wayVariance[r];
      const b = sites.level[site] >= 0 ? sites.b[site] : 0;
      let variance = share * share * left.variance + sites.v[site] * (1 - share);
      let covariance = 0;
      for (let j = 0; j < seenThrough; j++) {
        const t = b * factor[line + j] + share * left.pull[j];
        variance += t * t;
        covariance += t * factor[line + j];
      }
      const mean = sites.a[site] + b * level + share * left.mean;
      updateSite(sites, site, mean, variance - covariance * covariance * solid, level, true, false);
    }
  }
};
