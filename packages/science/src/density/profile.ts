import { mustLie, QuantityError } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres, Ratio } from '../units.ts';
import type { Shared } from './cylinder.ts';
import { type Smoother, smootherAt } from './local-regression.ts';
import type { ByOthers, PlacedDensity } from './placed-density.ts';
import { bestReach, judgedByOthers, settled } from './profile-weights.ts';

/** How one piece lies to the profile. */
export interface Residual {
  readonly id: string;
  /** Null where the others are too few to say. */
  readonly byOthers: ByOthers | null;
  /** 1 where it counts in full, 0 where it does not pull the curve at all. */
  readonly weight: Ratio;
}

export interface DensityProfile {
  /** Reach of the local regression to either side. */
  readonly reach: Metres;
  readonly isReachGiven: boolean;
  /** Of real firn about the smooth curve, on the scale of a piece. */
  readonly scatter: KilogramsPerCubicMetre;
  readonly top: Metres;
  readonly bottom: Metres;
  readonly pieces: readonly PlacedDensity[];
  readonly residuals: readonly Residual[];
  /** Weights by which the smooth value at a depth is made of `pieces`. */
  readonly smoother: (depth: Metres) => Smoother;
  /** The smooth curve with its band; outside the pieces along the tangent, with the band growing. */
  readonly at: (depth: Metres) => Shared<KilogramsPerCubicMetre>;
}

/** The biweight costs 5 % of the information: so much more variance. */
const robustCost = 1 / 0.95;

/**
 * Smooth density over depth, not forced to rise: robust local regression of the pieces' means over their intervals
 * (`local-regression.ts`), weights 1/(u^2 + scatter^2) times Tukey's biweight of the standardised residual. So a
 * flagged piece pulls little or nothing; it is dropped from nothing.
 *
 * Band: the curve is linear in the measured densities, so its random variance is sum l_i^2 (u_i^2 + scatter^2) with
 * the weights held; what cutter sets share adds up within a set and in squares between sets. The band is that of the
 * smooth curve, not of a single piece (add `scatter`), and knows nothing of the curve's bias where density bends
 * within less than the reach.
 *
 * @param given pieces with density and place, any order
 * @param reach metres; not given: the one that predicts left-out pieces best (cross-validation)
 * @throws QuantityError for fewer than two pieces, or a piece whose bottom is not below its top
 */
export const densityProfile = (given: readonly PlacedDensity[], reach?: Metres): DensityProfile => {
  const pieces = given.toSorted((a, b) => a.top + a.bottom - b.top - b.bottom);
  if (pieces.length < 2)
    throw new QuantityError(
      'density profile',
      `${pieces.length} pieces have a density and a depth`,
      '2 or more',
    );
  for (const { id, top, bottom } of pieces)
    if (!(bottom > top))
      throw new QuantityError(`piece ${id}`, `its bottom is at ${bottom} m`, `below its top, ${top} m`);
  if (reach !== undefined) mustLie('density profile', 'reach', reach, 1e-3, 1e5, 'm');
  const chosen = reach ?? bestReach(pieces);
  const { data, scatter, robust } = settled(pieces, chosen);

  const smoother = (depth: Metres) => smootherAt(data, depth, chosen);
  const at = (depth: Metres): Shared<KilogramsPerCubicMetre> => {
    const { first, by } = smoother(depth);
    let value = 0;
    let variance = 0;
    const shared = new Map<string, number>();
    by.forEach((l, k) => {
      const { density, randomSd, sharedShare, cutterSet } = pieces[first + k];
      value += l * density;
      variance += l * l * (randomSd ** 2 + scatter ** 2);
      shared.set(cutterSet, (shared.get(cutterSet) ?? 0) + l * density * sharedShare);
    });
    return {
      value,
      randomSd: Math.sqrt(robustCost * variance),
      sharedSd: Math.hypot(...shared.values()),
    };
  };
  const residuals = pieces.map(
    (piece, i): Residual => ({
      id: piece.id,
      byOthers: judgedByOthers(pieces, data, scatter, i, chosen),
      weight: robust[i],
    }),
  );
  return {
    reach: chosen,
    isReachGiven: reach !== undefined,
    scatter,
    top: pieces[0].top,
    bottom: pieces.at(-1)!.bottom,
    pieces,
    residuals,
    smoother,
    at,
  };
};
