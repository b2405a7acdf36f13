/** What really happened in the invented holes: for tests that judge the solved depths, never for a screen. */
import { drill, type Trip } from './ice.ts';
import { type HolePlan, plans } from './plan.ts';

export interface HoleTruth {
  readonly plan: HolePlan;
  readonly trips: readonly Trip[];
}

export const demoTruth = (seed: number): readonly HoleTruth[] =>
  plans.map((plan) => ({ plan, trips: drill(plan, seed) }));
