import type { KilogramsPerCubicMetre, Metres } from '../units.ts';
import { fittedAt, type IntervalMeans, smootherAt } from './local-regression.ts';
import type { ByOthers, PlacedDensity } from './placed-density.ts';
import { biweight, robustSd } from './robust.ts';

/** Scatter of firn on the scale of a piece before the pieces say, worth so many of them (common practice). */
const usualScatter: KilogramsPerCubicMetre = 8;
const guessWorth = 4;
/** Cut of the biweight in standard deviations: 95 % efficiency for normal errors (from memory). */
const cut = 4.685;
const rounds = 5;
/**
 * Share of the best predicting reach that is taken: that one trades bias for variance, and a band that is to hold the
 * truth has no room for bias (P. Hall 1992, Ann. Stat. 20, 675-694; the share by trial, see the test).
 */
const narrower = 0.7;
/** Reaches tried, from six pieces to the whole core or `farthest`. */
const tries = 10;
/** No curve reaches over more pieces to either side. */
const farthest = 200;
/** So many pieces at most are left out in turn per reach that is tried. */
const judged = 300;
/** A piece that makes more than 0.7 of the curve at its place is not judged by it. */
const leastLeft = 0.3;

interface Settled {
  readonly data: IntervalMeans;
  readonly scatter: KilogramsPerCubicMetre;
  /** By piece, 1 where it counts in full. */
  readonly robust: readonly number[];
}

/**
 * Scatter of the firn and robust weights that agree with each other, for one reach.
 *
 * @param pieces in order of their middles
 */
export const settled = (pieces: readonly PlacedDensity[], reach: Metres): Settled => {
  const middle = Float64Array.from(pieces, ({ top, bottom }) => (top + bottom) / 2);
  const spread = Float64Array.from(pieces, ({ top, bottom }) => (bottom - top) ** 2 / 12);
  const values = valuesOf(pieces);
  const measuring = pieces.reduce((sum, { randomSd }) => sum + randomSd ** 2, 0) / pieces.length;
  let scatter = usualScatter;
  let robust: readonly number[] = pieces.map(() => 1);
  const data = () => ({
    middle,
    spread,
    weight: Float64Array.from(pieces, ({ randomSd }, i) => robust[i] / (randomSd ** 2 + scatter ** 2)),
  });
  for (let round = 0; round < rounds; round++) {
    const now = data();
    const residuals = pieces.map(({ density }, i) => {
      const { fit, own, squares } = fittedAt(now, values, i, reach);
      // divided so that its variance is that of one observation: 1 - 2 l_ii + sum l_ij^2
      return (density - fit) / Math.sqrt(Math.max(0.05, 1 - 2 * own + squares));
    });
    const found = Math.max(0, robustSd(residuals, 0) ** 2 - measuring);
    scatter = Math.sqrt(
      (guessWorth * usualScatter ** 2 + pieces.length * found) / (guessWorth + pieces.length),
    );
    robust = residuals.map((residual, i) =>
      biweight(residual / Math.hypot(pieces[i].randomSd, scatter), cut),
    );
  }
  return { data: data(), scatter, robust };
};

const valuesOf = (pieces: readonly PlacedDensity[]) => Float64Array.from(pieces, ({ density }) => density);

/** What the others say of piece i: the linear smoother without it, (fit - own y)/(1 - own); null where they can't. */
export const judgedByOthers = (
  pieces: readonly PlacedDensity[],
  data: IntervalMeans,
  scatter: KilogramsPerCubicMetre,
  i: number,
  reach: Metres,
): ByOthers | null => {
  const { first, by } = smootherAt(data, data.middle[i], reach);
  const own = by[i - first];
  const left = 1 - own;
  if (left < leastLeft) return null;
  let [fit, variance] = [0, 0];
  by.forEach((l, k) => {
    if (first + k === i) return;
    const { density, randomSd } = pieces[first + k];
    fit += l * density;
    variance += (l / left) ** 2 * (randomSd ** 2 + scatter ** 2);
  });
  const expected = fit / left;
  const sd = Math.sqrt(variance + pieces[i].randomSd ** 2 + scatter ** 2);
  return { expected, sd, standardised: (pieces[i].density - expected) / sd };
};

/**
 * The reach by which left-out pieces are predicted best (cross-validation, robust weights of a wide pilot curve), less
 * 30 % for the sake of the band.
 *
 * @param pieces in order of their middles
 */
export const bestReach = (pieces: readonly PlacedDensity[]): Metres => {
  const span = pieces.at(-1)!.bottom - pieces[0].top;
  const most = Math.min(span, (farthest * span) / pieces.length);
  const least = Math.min(most, Math.max(1, (6 * span) / pieces.length));
  const { data } = settled(pieces, most / 4);
  const values = valuesOf(pieces);
  const step = Math.max(1, Math.ceil(pieces.length / judged));
  let best = { reach: most, miss: Number.POSITIVE_INFINITY };
  for (let k = 0; k < tries; k++) {
    const reach = least * (most / least) ** (k / (tries - 1));
    let miss = 0;
    for (let i = 0; i < pieces.length; i += step) {
      const { fit, own } = fittedAt(data, values, i, reach);
      miss += data.weight[i] * ((pieces[i].density - fit) / Math.max(0.05, 1 - own)) ** 2;
    }
    if (miss < best.miss) best = { reach, miss };
  }
  return Math.max(least, narrower * best.reach);
};
