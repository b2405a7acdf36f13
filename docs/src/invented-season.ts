import { seeded } from '@firnbook/science/random';
import { plainHabits, simulateSeason, usualPlan } from '@firnbook/science/simulate-season';

/**
 * A season for the figures of depth: 100 invented runs. The same seed is the same season.
 *
 * @param soundings of the hole by weighted tape
 */
export const inventedSeason = (seed: number, soundings: number) =>
  simulateSeason(seeded(seed), { ...usualPlan, runs: 100, soundings, habits: plainHabits });
