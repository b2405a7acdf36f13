import type { Chain } from './chain.ts';
import { type Leftover, leftover } from './sweep.ts';

/** Mean and standard deviation of tops and bottoms of all pieces, metres. */
export interface Positions {
  readonly top: Float64Array;
  readonly topSd: Float64Array;
  readonly bottom: Float64Array;
  readonly bottomSd: Float64Array;
}

/**
 * From the rows to the pieces: given B_(r-1) and B_r the parts of the way share what is left over in proportion to
 * their part in its variance. O(pieces).
 *
 * @param swaps pieces that may lie below the next one instead of above it, see `weighOrders`
 * @param wanted rows whose pieces are asked for, where not all are
 */
export const positions = (
  chain: Chain,
  swaps: readonly number[] = [],
  wanted?: ReadonlySet<number>,
): Positions => {
  const { net, core, cov, cross, pull, factor, global, wayVariance } = chain;
  const { globals: k, layout, sites, partSite, partGlobal, partMean, partCoefficient, partVariance } = net;
  const n = net.pieces;
  const out: Positions = {
    top: new Float64Array(n),
    topSd: new Float64Array(n),
    bottom: new Float64Array(n),
    bottomSd: new Float64Array(n),
  };
  const left: Leftover = { mean: 0, variance: 0, pull: new Float64Array(k) };
  const { wayColumns } = net.unknowns;
  const slots = wayColumns.length;
  const sums = new Float64Array(slots);
  const here = new Float64Array(k);
  for (let r = 1; r <= net.rows; r++) {
    const from = layout.part[r];
    const end = layout.part[r + 1];
    if (from === end || wanted?.has(r) === false) continue;
    leftover(chain, r, left);
    const whole = wayVariance[r];
    const above = 2 * k * (r - 1);
    // leftover = B_r - B_(r-1) - ...; its covariance with B_(r-1), given the globals
    const tied = cross[4 * r] - cov[3 * r - 3];
    let pieces = 0;
    for (let part = from; part < end; part++) if (part % 2 === 1) pieces += net.biased[part >> 1];
    let mean = core[r - 1];
    let variance = 0;
    let bias = 0;
    sums.fill(0);
    for (let part = from; part < end; part++) {
      const at = part >> 1;
      const isLength = part % 2 === 1;
      const site = partSite[part];
      if (site >= 0) {
        mean += sites.a[site];
        variance += sites.v[site];
        const column = sites.level[site];
        if (column >= 0) {
          mean += sites.b[site] * global[column];
          sums[net.slot[column]] += sites.b[site];
        }
      } else {
        const column = partGlobal[part];
        mean += partMean[part];
        if (column >= 0) {
          mean += partCoefficient[part] * global[column];
          sums[net.slot[column]] += partCoefficient[part];
        }
        variance += partVariance[part];
      }
      if (isLength) {
        bias += net.biased[at];
        if (part - 2 >= from) variance += 2 * net.joint[at];
      }
      // the next length of this row may share a position with this one
      const joined = isLength
        ? part + 2 < end
          ? net.joint[at + 1]
          : 0
        : part - 1 >= from && part + 1 < end
          ? net.joint[at]
          : 0;
      const own = variance + bias * bias * net.runBiasVariance;
      const share = (variance + joined + bias * pieces * net.runBiasVariance) / whole;
      let spread =
        cov[3 * r - 3] +
        2 * share * tied +
        share * share * left.variance +
        Math.max(0, own - share * share * whole);
      for (let j = 0; j < k; j++) here[j] = pull[above + j] + share * left.pull[j];
      for (let s = 0; s < slots; s++) {
        const sum = sums[s];
        if (sum === 0) continue;
        const line = wayColumns[s] * k;
        for (let j = 0; j < k; j++) here[j] += sum * factor[line + j];
      }
      for (let j = 0; j < k; j++) spread += here[j] * here[j];
      const value = mean + share * left.mean;
      const sd = Math.sqrt(Math.max(0, spread));
      if (isLength) {
        out.bottom[at] = value;
        out.bottomSd[at] = sd;
      } else {
        out.top[at] = value;
        out.topSd[at] = sd;
      }
    }
  }
  for (const i of swaps) weighOrders(out, i);
  return out;
};

/**
 * Piece i and the next one, either above the other with equal odds: mean and spread of the mixture. What lies above
 * and below both is the same in either order.
 */
const weighOrders = (out: Positions, i: number): void => {
  const { top, bottom, topSd, bottomSd } = out;
  const j = i + 1;
  const gap = top[j] - bottom[i];
  const mine = bottom[i] - top[i];
  const other = bottom[j] - top[j];
  // how far either moves in the other order
  const down = other + gap;
  const up = mine + gap;
  const start = top[i];
  const end = bottom[j];
  const startSd = topSd[i];
  const endSd = bottomSd[j];
  const mixed = (value: number, sd: number, elsewhere: number, sdThere: number) => ({
    value: (value + elsewhere) / 2,
    sd: Math.sqrt((sd * sd + sdThere * sdThere) / 2 + ((value - elsewhere) / 2) ** 2),
  });
  const places = [
    mixed(start, startSd, start + down, topSd[j]),
    mixed(bottom[i], bottomSd[i], end, endSd),
    mixed(top[j], topSd[j], start, startSd),
    mixed(end, endSd, end - up, bottomSd[i]),
  ];
  top[i] = places[0].value;
  topSd[i] = places[0].sd;
  bottom[i] = places[1].value;
  bottomSd[i] = places[1].sd;
  top[j] = places[2].value;
  topSd[j] = places[2].sd;
  bottom[j] = places[3].value;
  bottomSd[j] = places[3].sd;
};
