import { type DepthView, depthReadings, depthView, type HoleView } from '@firnbook/campaign';
import { defaultAssumptions } from '@firnbook/science/depth';
import type { Solver } from '../solve/solver.ts';

/** Solved depths of every hole of one book, kept up with its readings. */
export interface Solving {
  readonly depths: Readonly<Record<string, DepthView>>;
  readonly unsolved: Readonly<Record<string, string>>;
  readonly isBusy: boolean;
  /** Solve the holes whose readings changed since they were last seen. */
  follow(holes: readonly HoleView[]): void;
}

export function startSolving(solver: Solver, onChange: () => void): Solving {
  const seen = new Map<string, string>();
  const waiting = new Set<string>();
  let depths: Readonly<Record<string, DepthView>> = {};
  let unsolved: Readonly<Record<string, string>> = {};

  const without = <T>(record: Readonly<Record<string, T>>, name: string): Readonly<Record<string, T>> =>
    Object.fromEntries(Object.entries(record).filter(([key]) => key !== name));

  const follow = (holes: readonly HoleView[]) => {
    for (const hole of holes) {
      const readings = depthReadings(hole);
      const text = JSON.stringify(readings);
      if (seen.get(hole.id) === text) continue;
      seen.set(hole.id, text);
      waiting.add(hole.id);
      solver.solve(hole.id, readings, defaultAssumptions, (outcome) => {
        if (seen.get(hole.id) !== text) return;
        waiting.delete(hole.id);
        if (outcome.ok) {
          depths = { ...depths, [hole.id]: depthView(hole, outcome.solution) };
          unsolved = without(unsolved, hole.id);
        } else {
          depths = without(depths, hole.id);
          unsolved = { ...unsolved, [hole.id]: outcome.problem };
        }
        onChange();
      });
    }
  };

  return {
    get depths() {
      return depths;
    },
    get unsolved() {
      return unsolved;
    },
    get isBusy() {
      return waiting.size > 0;
    },
    follow,
  };
}
