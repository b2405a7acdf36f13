import type { Mutant } from './mutants.ts';
import { type Outcome, runSchedule } from './schedule.ts';

export interface Survey {
  readonly count: number;
  /** Share of histories that met each fault. */
  readonly met: Readonly<Record<string, number>>;
  /** The first ones that broke an invariant, each replayed by its seed. */
  readonly violations: readonly Outcome[];
  readonly exchanges: number;
}

/** Many histories, from seed `first` on. */
export async function surveySchedules(first: number, count: number): Promise<Survey> {
  const met = new Map<string, number>();
  const violations: Outcome[] = [];
  let exchanges = 0;
  for (let seed = first; seed < first + count && violations.length < 5; seed += 1) {
    const outcome = await runSchedule(seed);
    for (const name of outcome.met) met.set(name, (met.get(name) ?? 0) + 1 / count);
    if (outcome.violation !== null) violations.push(outcome);
    exchanges = Math.max(exchanges, outcome.exchanges);
  }
  return { count, met: Object.fromEntries([...met].sort()), violations, exchanges };
}

/** Seed of the first history in which a mutant breaks an invariant; null where none of `count` does. */
export async function findViolation(mutant: Mutant, count: number): Promise<Outcome | null> {
  for (let seed = 0; seed < count; seed += 1) {
    const outcome = await runSchedule(seed, mutant);
    if (outcome.violation !== null) return outcome;
  }
  return null;
}
