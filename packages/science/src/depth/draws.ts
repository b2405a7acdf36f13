import type { Random } from '../random/index.ts';
import type { Chain } from './chain.ts';
import { type DepthPosterior, swappable } from './solve.ts';

/** One possible set of depths, all of them together; metres. */
export interface DepthDraw {
  /** In the order of `solution.runs`. */
  readonly holeBottom: Float64Array;
  /** In the order of `solution.pieces`. */
  readonly top: Float64Array;
  readonly bottom: Float64Array;
}

/**
 * Depths drawn from the posterior together, so that neighbours move as one: globals first, then the chain from its last
 * row up, then the pieces inside their runs. O(rows + pieces) a draw. Drawn from the Gaussian stand-ins: a gap that
 * comes out below 0 is closed, and no core is left below its hole's bottom.
 *
 * @param count draws wanted, 0 or more
 * @param random seeded: the same seed gives the same draws
 */
export const jointDraws = (posterior: DepthPosterior, count: number, random: Random): DepthDraw[] => {
  const { snooped, listed } = posterior;
  const { chain } = snooped.adjusted;
  const { net } = chain;
  const { o } = snooped.job;
  const swaps = swappable(snooped);
  const ends = o.readings.runs.map((run) => net.layout.last[o.place.get(run.id) as number]);
  return Array.from({ length: count }, () => {
    const { core, hole, global } = drawChain(chain, random);
    const { top, bottom } = drawPieces(chain, random, core, global);
    for (let i = 0; i < net.pieces; i++) {
      const above = i === 0 ? Number.NEGATIVE_INFINITY : bottom[i - 1];
      // an overlap is shared between the two that overlap
      if (top[i] < above) top[i] = bottom[i - 1] = (top[i] + above) / 2;
      if (bottom[i] < top[i]) bottom[i] = top[i];
    }
    for (const i of swaps) if (random.uniform() < 0.5) swap(top, bottom, i);
    const holeBottom = Float64Array.from(ends, (row) => hole[row]);
    o.readings.runs.forEach((run, at) => {
      const r = o.place.get(run.id) as number;
      // the lowest is the last one or, of two in no order, the one before
      for (let i = Math.max(o.first[r], o.first[r + 1] - 2); i < o.first[r + 1]; i++)
        holeBottom[at] = Math.max(holeBottom[at], bottom[i]);
    });
    return {
      holeBottom,
      top: Float64Array.from(listed, (i) => top[i]),
      bottom: Float64Array.from(listed, (i) => bottom[i]),
    };
  });
};

/** Piece i below the next one: both between the same ends. */
const swap = (top: Float64Array, bottom: Float64Array, i: number): void => {
  const j = i + 1;
  const start = top[i];
  const end = bottom[j];
  const mine = bottom[i] - top[i];
  const other = bottom[j] - top[j];
  top[j] = start;
  bottom[j] = start + other;
  top[i] = end - mine;
  bottom[i] = end;
};

const drawChain = (chain: Chain, random: Random) => {
  const { net, core, hole, global, factor, pull, inverse, couple, driftInverse, driftCouple } = chain;
  const k = net.globals;
  const rows = net.rows;
  const z = Float64Array.from({ length: k }, () => random.normal());
  const globals = Float64Array.from(global, (value, i) => {
    let sum = value;
    for (let j = 0; j <= i; j++) sum += factor[i * k + j] * z[j];
    return sum;
  });
  const b = new Float64Array(rows + 1);
  const d = new Float64Array(rows + 1);
  // given the row below, a row is normal about -inverse C (row below), with covariance inverse
  let nextB = 0;
  let nextD = 0;
  let nextU = 0;
  for (let r = rows; r >= 0; r--) {
    const ibb = inverse[3 * r];
    const ibd = inverse[3 * r + 1];
    const idd = inverse[3 * r + 2];
    const ibu = driftInverse[3 * r];
    const idu = driftInverse[3 * r + 1];
    const iuu = driftInverse[3 * r + 2];
    const root = Math.sqrt(ibb);
    const lead = ibd / root;
    const rest = Math.sqrt(Math.max(0, idd - lead * lead));
    const first = ibu / root;
    const second = rest > 0 ? (idu - lead * first) / rest : 0;
    const e = random.normal();
    const f = random.normal();
    let x = root * e;
    let y = lead * e + rest * f;
    let u =
      first * e +
      second * f +
      Math.sqrt(Math.max(0, iuu - first * first - second * second)) * random.normal();
    if (r < rows) {
      const cb = couple[2 * r + 2] * nextB;
      const cd = couple[2 * r + 3] * nextD + driftCouple[2 * r + 2] * nextU;
      const cu = driftCouple[2 * r + 3] * nextU;
      x -= ibb * cb + ibd * cd + ibu * cu;
      y -= ibd * cb + idd * cd + idu * cu;
      u -= ibu * cb + idu * cd + iuu * cu;
    }
    nextB = x;
    nextD = y;
    nextU = u;
    b[r] = core[r] + x;
    d[r] = hole[r] + y;
    for (let j = 0; j < k; j++) {
      b[r] += pull[2 * r * k + j] * z[j];
      d[r] += pull[2 * r * k + k + j] * z[j];
    }
  }
  return { core: b, hole: d, global: globals };
};

/** Parts of every way drawn freely, then made to add up to the way. */
const drawPieces = (chain: Chain, random: Random, core: Float64Array, global: Float64Array) => {
  const { net, wayVariance } = chain;
  const { layout, sites, partSite, partMean, partVariance, partCoefficient, partGlobal } = net;
  const top = new Float64Array(net.pieces);
  const bottom = new Float64Array(net.pieces);
  const values: number[] = [];
  const shares: number[] = [];
  for (let r = 1; r <= net.rows; r++) {
    const from = layout.part[r];
    const end = layout.part[r + 1];
    if (from === end) continue;
    values.length = 0;
    shares.length = 0;
    let pieces = 0;
    for (let part = from; part < end; part++) if (part % 2 === 1) pieces += net.biased[part >> 1];
    const bias = Math.sqrt(net.runBiasVariance) * random.normal();
    let sum = 0;
    // errors of positions on a tray tape: that of a shared one carries over to the next length
    let shared = 0;
    for (let part = from; part < end; part++) {
      const site = partSite[part];
      const isLength = part % 2 === 1;
      const at = part >> 1;
      let mean: number;
      let variance: number;
      if (site >= 0) {
        const column = sites.level[site];
        mean = sites.a[site] + (column >= 0 ? sites.b[site] * global[column] : 0);
        variance = sites.v[site];
      } else {
        const column = partGlobal[part];
        mean = partMean[part] + (column >= 0 ? partCoefficient[part] * global[column] : 0);
        variance = partVariance[part];
      }
      let share = variance;
      let value = mean;
      if (isLength) {
        const above = part - 2 >= from ? net.joint[at] : 0;
        const below = part + 2 < end ? net.joint[at + 1] : 0;
        share += above + below;
        const own = below < 0 ? Math.sqrt(-below) * random.normal() : 0;
        value += own - (above < 0 ? shared : 0);
        shared = own;
        variance += above + below;
        if (net.biased[at] === 1) {
          value += bias;
          share += pieces * net.runBiasVariance;
        }
      }
      value += Math.sqrt(Math.max(0, variance)) * random.normal();
      values.push(value);
      shares.push(share / wayVariance[r]);
      sum += value;
    }
    const off = core[r] - core[r - 1] - sum;
    let depth = core[r - 1];
    for (let part = from; part < end; part++) {
      depth += values[part - from] + shares[part - from] * off;
      if (part % 2 === 1) bottom[part >> 1] = depth;
      else top[part >> 1] = depth;
    }
  }
  return { top, bottom };
};
