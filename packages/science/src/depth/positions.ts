import type { Chain } from './chain.ts';
import { Global } from './net.ts';
import { type Leftover, leftover } from './sweep.ts';

/** Mean and standard deviation of tops and bottoms of all pieces, metres. */
export interface Positions {
  readonly top: Float64Array;
  readonly topSd: Float64Array;
  readonly bottom: Float64Array;
  readonly bottomSd: Float64Array;
}

/**
 * From the runs to the pieces: given B_(r-1) and B_r the parts of the way share what is left over in proportion to
 * their variances. O(pieces).
 */
export const positions = (chain: Chain): Positions => {
  const { net, core, cov, cross, pull, factor, global, wayVariance } = chain;
  const { globals: k, first, sites, partSite, partGlobal, partMean, partCoefficient, partVariance } = net;
  const n = net.pieces;
  const out: Positions = {
    top: new Float64Array(n),
    topSd: new Float64Array(n),
    bottom: new Float64Array(n),
    bottomSd: new Float64Array(n),
  };
  const left: Leftover = { mean: 0, variance: 0, pull: new Float64Array(k) };
  const sums = new Float64Array(k);
  for (let r = 1; r <= net.runs; r++) {
    if (first[r] === first[r + 1]) continue;
    leftover(chain, r, left);
    const whole = wayVariance[r];
    const above = 2 * k * (r - 1);
    // leftover = B_r - B_(r-1) - ...; its covariance with B_(r-1), given the globals
    const tied = cross[4 * r] - cov[3 * r - 3];
    const pieces = first[r + 1] - first[r];
    let mean = core[r - 1];
    let variance = 0;
    let bias = 0;
    sums.fill(0);
    for (let part = 2 * first[r]; part < 2 * first[r + 1]; part++) {
      const site = partSite[part];
      if (site >= 0) {
        mean += sites.a[site];
        variance += sites.v[site];
        if (sites.level[site] >= 0) {
          mean += sites.b[site] * global[Global.unsure];
          sums[Global.unsure] += sites.b[site];
        }
      } else {
        const column = partGlobal[part];
        mean += partMean[part] + partCoefficient[part] * global[column];
        variance += partVariance[part];
        sums[column] += partCoefficient[part];
      }
      const isLength = part % 2 === 1;
      if (isLength) bias += 1;
      const own = variance + bias * bias * net.runBiasVariance;
      const share = (variance + bias * pieces * net.runBiasVariance) / whole;
      let spread =
        cov[3 * r - 3] +
        2 * share * tied +
        share * share * left.variance +
        Math.max(0, own - share * share * whole);
      for (let j = 0; j < k; j++) {
        let t = pull[above + j] + share * left.pull[j];
        for (let g = 0; g < k; g++) if (sums[g] !== 0) t += sums[g] * factor[g * k + j];
        spread += t * t;
      }
      const at = part >> 1;
      const value = mean + share * left.mean;
      if (isLength) {
        out.bottom[at] = value;
        out.bottomSd[at] = Math.sqrt(Math.max(0, spread));
      } else {
        out.top[at] = value;
        out.topSd[at] = Math.sqrt(Math.max(0, spread));
      }
    }
  }
  return out;
};
