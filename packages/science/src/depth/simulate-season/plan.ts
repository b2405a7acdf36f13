import { type Habits, plainHabits } from './habits.ts';

/** What is decided about an invented season; all else is drawn. */
export interface SeasonPlan {
  readonly runs: number;
  /** Soundings by weighted tape, evenly spread. */
  readonly soundings: number;
  /** Share of runs that leave all their core in the hole; the next one brings it. */
  readonly emptyShare: number;
  /** Share of runs that leave a few decimetres standing. */
  readonly longStubShare: number;
  /** Share of counter readings that somebody forgot to take; half as many pieces crumble and have no length. */
  readonly missedShare: number;
  /** Shortest and longest run, metres; most pieces of a run. */
  readonly runFrom: number;
  readonly runTo: number;
  readonly mostPieces: number;
  /** What the crew reads beyond counters and lengths; drawn anew for every season where it says so. */
  readonly habits: Habits | 'drawn';
}

/** A dry hole of about 110 m in runs of at most one metre. */
export const usualPlan: SeasonPlan = {
  runs: 140,
  soundings: 3,
  emptyShare: 0.02,
  longStubShare: 0.03,
  missedShare: 0.01,
  runFrom: 0.55,
  runTo: 1,
  mostPieces: 4,
  habits: plainHabits,
};
