import { type CutNormal, cutNormal } from './gaussian-tail.ts';

/**
 * A one-sided quantity q >= 0 (fill, stub, gap) whose usual mean is m = exp(l):
 *   p(q | l) = (1 - rare) Exp(q; m) + rare Exp(q; rareMean)
 * seen through a normal distribution N(q; centre, variance): its mass, its moments, and how these change with l.
 * All in closed form: an exponential times a normal is a normal cut off at 0.
 */
export interface Tilted {
  logMass: number;
  mean: number;
  variance: number;
  /** d logMass/dl, d2 logMass/dl2, d mean/dl. */
  slope: number;
  bend: number;
  meanSlope: number;
}

export const emptyTilted = (): Tilted => ({
  logMass: 0,
  mean: 0,
  variance: 0,
  slope: 0,
  bend: 0,
  meanSlope: 0,
});

const cut: CutNormal = { scaledLog: 0, lift: 0, spread: 0 };

/** log of the mass of Exp(mean m) under N(centre, sd^2); leaves the moments in `cut`. */
const exponentialMass = (mean: number, centre: number, sd: number): number => {
  const z = centre / sd - sd / mean;
  cutNormal(z, cut);
  const shape =
    z < 0 ? (-0.5 * (centre / sd) * centre) / sd : -centre / mean + (0.5 * (sd / mean) * sd) / mean;
  return shape + cut.scaledLog - Math.log(mean);
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
  const log = exponentialMass(mean, centre, sd);
  const usual = sd * cut.lift;
  const usualVariance = variance * cut.spread;
  // d/dl of log Exp is -1 + q/m; of a tilted mean, the variance times the change of -1/m
  const slope = usual / mean - 1;
  const bend = (usualVariance / mean - usual) / mean;
  const meanSlope = usualVariance / mean;
  if (rare === 0) {
    out.logMass = log;
    out.mean = usual;
    out.variance = usualVariance;
    out.slope = slope;
    out.bend = bend;
    out.meanSlope = meanSlope;
    return;
  }
  const wideLog = exponentialMass(rareMean, centre, sd);
  const wide = sd * cut.lift;
  const odds = (rare / (1 - rare)) * Math.exp(wideLog - log);
  const share = odds === Number.POSITIVE_INFINITY ? 0 : 1 / (1 + odds);
  const other = odds === Number.POSITIVE_INFINITY ? 1 : odds / (1 + odds);
  const apart = usual - wide;
  out.logMass = share > 0 ? log + Math.log((1 - rare) / share) : wideLog + Math.log(rare);
  out.mean = share * usual + other * wide;
  out.variance = share * usualVariance + other * variance * cut.spread + share * other * apart * apart;
  out.slope = share * slope;
  out.bend = share * (bend + other * slope * slope);
  out.meanSlope = share * (meanSlope + other * apart * slope);
};
