import { type CutNormal, cutNormal } from './gaussian-tail.ts';

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

/** log of the mass of Exp(mean m) under N(centre, sd^2), less log(tail / mean); leaves tail and moments in `cut`. */
const exponentialShape = (mean: number, centre: number, sd: number): number => {
  const z = centre / sd - sd / mean;
  cutNormal(z, cut);
  return z < 0 ? (-0.5 * (centre / sd) * centre) / sd : (-centre + 0.5 * (sd / mean) * sd) / mean;
};

/** @param mean exp(l); metres. rare 0 to below 1. */
export const tilt = (
  centre: number,
  variance: number,
  mean: number,
  rare: number,
  rareMean: number,
  out: Tilted,
): void => {
  const sd = Math.sqrt(variance);
  const shape = exponentialShape(mean, centre, sd);
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
  const wideShape = exponentialShape(rareMean, centre, sd);
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
