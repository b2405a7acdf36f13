import { type CutNormal, cutQuickly } from './gaussian-tail.ts';

/**
 * A one-sided quantity q >= 0 (fill, stub, gap) whose usual mean is m = exp(l):
 *   p(q | l) = (1 - rare) Exp(q; m) + rare Exp(q; rareMean)
 * seen through a normal distribution N(q; centre, variance): its mass, its moments, and how these change with l.
 * All in closed form: an exponential times a normal is a normal cut off at 0.
 */
export interface Tilted {
  /** The mass is exp(shape) x scaled, see `logMass`. */
  shape: number;
  scaled: number;
  mean: number;
  variance: number;
  /** d logMass/dl, d2 logMass/dl2, d mean/dl. */
  slope: number;
  bend: number;
  meanSlope: number;
}

export const emptyTilted = (): Tilted => ({
  shape: 0,
  scaled: 0,
  mean: 0,
  variance: 0,
  slope: 0,
  bend: 0,
  meanSlope: 0,
});

export const logMass = (tilted: Tilted): number => tilted.shape + Math.log(tilted.scaled);

const cut: CutNormal = { tail: 0, lift: 0, spread: 0 };

/**
 * @param asked centre, variance, mean exp(l), rare (0 to below 1), rareMean; metres. In one array: numbers handed over
 *   one by one would each be put in a box
 */
export const tilt = (asked: Float64Array, out: Tilted): void => {
  const centre = asked[0];
  const variance = asked[1];
  const mean = asked[2];
  const rare = asked[3];
  const rareMean = asked[4];
  // log of the mass of Exp(mean) under N(centre, sd^2), less log(tail / mean)
  const sd = Math.sqrt(variance);
  const near = centre / sd;
  const below = -0.5 * near * near;
  const per = sd / mean;
  const z = near - per;
  cutQuickly(z, cut);
  const shape = z < 0 ? below : (0.5 * per - near) * per;
  const mass = cut.tail / mean;
  const usual = sd * cut.lift;
  const usualVariance = variance * cut.spread;
  // d/dl of log Exp is -1 + q/m; of a tilted mean, the variance times the change of -1/m
  const slope = usual / mean - 1;
  const bend = (usualVariance / mean - usual) / mean;
  const meanSlope = usualVariance / mean;
  if (rare === 0) {
    out.shape = shape;
    out.scaled = mass;
    out.mean = usual;
    out.variance = usualVariance;
    out.slope = slope;
    out.bend = bend;
    out.meanSlope = meanSlope;
    return;
  }
  const widePer = sd / rareMean;
  const wideZ = near - widePer;
  cutQuickly(wideZ, cut);
  const wideShape = wideZ < 0 ? below : (0.5 * widePer - near) * widePer;
  const wideMass = cut.tail / rareMean;
  const wide = sd * cut.lift;
  const odds = (rare / (1 - rare)) * (wideMass / mass) * Math.exp(wideShape - shape);
  const share = odds === Number.POSITIVE_INFINITY ? 0 : 1 / (1 + odds);
  const other = odds === Number.POSITIVE_INFINITY ? 1 : odds / (1 + odds);
  const apart = usual - wide;
  out.shape = share > 0 ? shape : wideShape;
  out.scaled = share > 0 ? (mass * (1 - rare)) / share : wideMass * rare;
  out.mean = share * usual + other * wide;
  out.variance = share * usualVariance + other * variance * cut.spread + share * other * apart * apart;
  out.slope = share * slope;
  out.bend = share * (bend + other * slope * slope);
  out.meanSlope = share * (meanSlope + other * apart * slope);
};

/**
 * A quantity that is one of two, each with the same error: half N(q; one, spread) + half N(q; two, spread), seen
 * through N(q; centre, variance). Two normals times a normal are two normals.
 */
export const tiltTwin = (
  centre: number,
  variance: number,
  one: number,
  two: number,
  spread: number,
  out: Tilted,
): void => {
  const total = variance + spread;
  const far = (0.5 * ((two - centre) ** 2 - (one - centre) ** 2)) / total;
  const share = 1 / (1 + Math.exp(-far));
  const shrink = variance / total;
  const a = centre + shrink * (one - centre);
  const b = centre + shrink * (two - centre);
  out.shape = (-0.5 * Math.min((one - centre) ** 2, (two - centre) ** 2)) / total;
  out.scaled = (0.5 * (1 + Math.exp(-Math.abs(far)))) / Math.sqrt(2 * Math.PI * total);
  out.mean = share * a + (1 - share) * b;
  out.variance = shrink * spread + share * (1 - share) * (a - b) ** 2;
  out.slope = 0;
  out.bend = 0;
  out.meanSlope = 0;
};
