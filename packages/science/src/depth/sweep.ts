import { type Chain, openedReadings, openedWay, readingWeights, solveChain, touches } from './chain.ts';
import { Global } from './net.ts';
import { calmSites, updateSite } from './sites.ts';

/**
 * One sweep of expectation propagation: solve the chain with the present stand-ins, then refresh every stand-in
 * from its own one-sided term.
 *
 * @returns log evidence of the readings (meaningful at convergence, up to a constant of the readings' number)
 */
export const sweep = (chain: Chain): number => {
  if (!solveChain(chain)) {
    calmSites(chain.net.sites);
    solveChain(chain);
  }
  return chain.logMass + refreshStubs(chain) + refreshFills(chain) + refreshParts(chain);
};

const sumOf = (evidence: number): number => (Number.isNaN(evidence) ? 0 : evidence);

const levelVariance = (chain: Chain, level: number): number => {
  const { factor } = chain;
  const k = chain.net.globals;
  let sum = 0;
  for (let j = 0; j <= level; j++) sum += factor[level * k + j] ** 2;
  return sum;
};

const refreshStubs = (chain: Chain): number => {
  const { net, core, hole, cov, pull, factor, global } = chain;
  const { runs, globals: k, sites } = net;
  const level = Global.stub;
  const solid = 1 / levelVariance(chain, level);
  let evidence = 0;
  for (let r = 1; r <= runs; r++) {
    const at = r * 2 * k;
    let variance = cov[3 * r] - 2 * cov[3 * r + 1] + cov[3 * r + 2];
    let covariance = 0;
    for (let j = 0; j < k; j++) {
      const t = pull[at + k + j] - pull[at + j];
      variance += t * t;
      covariance += t * factor[level * k + j];
    }
    const mean = hole[r] - core[r];
    evidence += sumOf(
      updateSite(sites, r - 1, mean, variance - covariance * covariance * solid, global[level], false),
    );
  }
  return evidence;
};

const weights = new Float64Array(4);
const opened = new Float64Array(3);
const touched = new Float64Array(3);

const refreshFills = (chain: Chain): number => {
  const { net, hole, cov, cross, pull, factor, global } = chain;
  const { runs, globals: k, sites } = net;
  const level = Global.fill;
  const solid = 1 / levelVariance(chain, level);
  const scale = 1 + global[Global.cable];
  let evidence = 0;
  for (let r = 1; r <= runs; r++) {
    readingWeights(net, r, weights);
    const n0 = weights[0];
    const n1 = weights[1];
    const n2 = weights[3];
    const seen = n0 + n2;
    if (seen === 0) continue;
    const site = runs + r - 1;
    const own = 1 / (sites.p[site] + seen);
    const leveled = sites.level[site] >= 0;
    const above = hole[r - 1];
    const below = hole[r];
    openedReadings(net, r, global, opened);
    const e0 = n0 > 0 ? net.from[r] - above * scale - opened[0] : 0;
    const e1 = weights[2] > 0 ? net.to[r] - below * scale - opened[1] : 0;
    const e2 = n2 > 0 ? net.sounding[r] - above - opened[2] : 0;
    const prior = sites.g[site] - (leveled ? sites.c[site] * global[level] : 0);
    const mean = own * (prior - n0 * e0 - n1 * e1 - n2 * e2);
    // fill as a linear function of D above, D below, and the globals
    const da = own * (n0 * scale + n2);
    const db = own * n1 * scale;
    const cable = own * (n0 * above + n1 * below);
    const lead = leveled ? -own * sites.c[site] : 0;
    const up = (r - 1) * 2 * k + k;
    const down = r * 2 * k + k;
    let variance = own + da * da * cov[3 * r - 1] + db * db * cov[3 * r + 2] + 2 * da * db * cross[4 * r + 3];
    let covariance = 0;
    for (let j = 0; j < k; j++) {
      let t = da * pull[up + j] + db * pull[down + j] + cable * factor[j];
      t += lead * factor[level * k + j];
      for (let s = 0; s < net.openings.length; s++)
        if (touches(net.openings[s], r, touched))
          t +=
            own *
            (n0 * touched[0] + n1 * touched[1] + n2 * touched[2]) *
            factor[(Global.opening + s) * k + j];
      variance += t * t;
      covariance += t * factor[level * k + j];
    }
    evidence += sumOf(
      updateSite(sites, site, mean, variance - covariance * covariance * solid, global[level], false),
    );
  }
  return evidence;
};

/** What is left over of the way of run r, given everything: way less its parts' expectation. */
export interface Leftover {
  mean: number;
  /** Given the globals. */
  variance: number;
  /** In the globals' factor. */
  readonly pull: Float64Array;
}

export const leftover = (chain: Chain, r: number, out: Leftover): void => {
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
    unsure * global[Global.unsure] -
    openedWay(net, r, global);
  out.variance = cov[3 * r] + cov[3 * r - 3] - 2 * cross[at];
  const here = r * 2 * k;
  const there = here - 2 * k;
  for (let j = 0; j < k; j++)
    out.pull[j] =
      pull[here + j] -
      pull[there + j] -
      tape * factor[Global.tape * k + j] -
      fit * factor[Global.fit * k + j] -
      loss * factor[Global.loss * k + j] -
      unsure * factor[Global.unsure * k + j];
  for (let s = 0; s < net.openings.length; s++)
    if (net.openings[s].kind === 'way' && net.openings[s].run === r)
      for (let j = 0; j < k; j++) out.pull[j] -= factor[(Global.opening + s) * k + j];
};

const refreshParts = (chain: Chain): number => {
  const { net, factor, global, wayVariance } = chain;
  const { globals: k, sites, first, partSite } = net;
  const level = Global.unsure;
  const solid = 1 / levelVariance(chain, level);
  const left: Leftover = { mean: 0, variance: 0, pull: new Float64Array(k) };
  let evidence = 0;
  for (let r = 1; r <= net.runs; r++) {
    let known = false;
    for (let part = 2 * first[r]; part < 2 * first[r + 1]; part++) {
      const site = partSite[part];
      if (site < 0) continue;
      if (!known) leftover(chain, r, left);
      known = true;
      const share = sites.v[site] / wayVariance[r];
      const b = sites.level[site] >= 0 ? sites.b[site] : 0;
      let variance = share * share * left.variance + sites.v[site] * (1 - share);
      let covariance = 0;
      for (let j = 0; j < k; j++) {
        const t = b * factor[level * k + j] + share * left.pull[j];
        variance += t * t;
        covariance += t * factor[level * k + j];
      }
      const mean = sites.a[site] + b * global[level] + share * left.mean;
      evidence += sumOf(
        updateSite(sites, site, mean, variance - covariance * covariance * solid, global[level], true),
      );
    }
  }
  return evidence;
};
