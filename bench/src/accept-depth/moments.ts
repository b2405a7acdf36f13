/** What replaces the one-sided terms of the model in a linear adjustment: mean and variance of their priors. */
import type { DepthAssumptions } from '@firnbook/science/depth';

/** Names of readings, as the equations carry them. */
export const startOf = (run: string): string => `from ${run}`;
export const endOf = (run: string): string => `to ${run}`;
export const coreOf = (piece: string): string => `core at ${piece}`;
export const soundingOf = (id: string): string => `sounding ${id}`;

/** Mean of a one-sided quantity, variance of one about it, variance of the mean itself. */
interface Moment {
  readonly mean: number;
  readonly variance: number;
  readonly ofMean: number;
}

export interface Moments {
  readonly fill: Moment;
  /** After a run that brought nothing: the drill may land on its core. */
  readonly looseFill: Moment;
  readonly stub: Moment;
  readonly unsure: Moment;
  readonly ground: Moment;
}

/** Rare wide terms of the model: docs/method/depth.md. */
const RARE = { fill: [0.02, 0.1], looseFill: [0.3, 0.3], stub: [0.03, 0.25], gap: [0.003, 0.2] } as const;

/** Exponential mixed with a rare wide one; its mean is lognormal by its median and a factor. */
const mixed = (median: number, factor: number, [share, wide]: readonly [number, number]): Moment => {
  const spread = Math.log(factor) ** 2;
  const usual = median * Math.exp(spread / 2);
  const mean = (1 - share) * usual + share * wide;
  const second = 2 * ((1 - share) * usual ** 2 + share * wide ** 2);
  return { mean, variance: second - mean ** 2, ofMean: usual ** 2 * Math.expm1(spread) };
};

export const moments = (a: DepthAssumptions): Moments => ({
  fill: mixed(a.fillMean, a.meansKnownWithinFactor, RARE.fill),
  looseFill: mixed(a.fillMean, a.meansKnownWithinFactor, RARE.looseFill),
  stub: mixed(a.stubMean, a.meansKnownWithinFactor, RARE.stub),
  unsure: mixed(a.unsureGapMean, a.meansKnownWithinFactor, RARE.gap),
  ground: mixed(a.groundGapMean, a.meansKnownWithinFactor, RARE.gap),
});
