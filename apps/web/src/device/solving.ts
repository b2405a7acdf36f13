import {
  type CampaignView,
  type DensityView,
  type DepthView,
  densityInputs,
  depthAssumptions,
  depthReadings,
  depthView,
  type HoleView,
  withoutDensity,
} from '@firnbook/campaign';
import type { DepthReadings, DepthSolution } from '@firnbook/science/depth';
import { type DepthDifference, type Solved, solvedNow, type Verdict } from '@firnbook/science/depth-scales';
import type { DepthsAsked } from '../solve/job.ts';
import type { Solver } from '../solve/solver.ts';

/** A solution, and the readings that it is made of. */
export interface SolvedHole {
  readonly readings: DepthReadings;
  readonly solution: DepthSolution;
}

/** What is computed of every hole of one book, kept up with its readings. */
export interface Solving {
  readonly depths: Readonly<Record<string, DepthView>>;
  readonly solved: Readonly<Record<string, SolvedHole>>;
  readonly unsolved: Readonly<Record<string, string>>;
  /** Of the holes that somebody looks at. */
  readonly densities: Readonly<Record<string, DensityView>>;
  /** Whether depths are still to come. */
  readonly isBusy: boolean;
  /** Solve the holes whose readings changed since they were last seen. */
  follow(campaign: CampaignView): void;
  /** Keep a hole's density up from now on, until what is returned is called. */
  watchDensity(hole: string): () => void;
  /** The verdict after a hole's last run; null where there is none. */
  judge(hole: string): Promise<Verdict | null>;
  /** What moved in a hole since another state of its depths, and why; null where it is not solved. */
  movements(hole: string, before: Solved): Promise<DepthDifference | null>;
}

/** A hole as it was last seen, with what its numbers are made of. */
interface Followed {
  readonly hole: HoleView;
  readonly others: CampaignView['others'];
  /** Readings and assumptions as text. */
  readonly asked: string;
}

export function startSolving(solver: Solver, onChange: () => void): Solving {
  const followed = new Map<string, Followed>();
  const waiting = new Set<string>();
  /** How many look at a hole's density, and the inputs that were last asked about, as text. */
  const watched = new Map<string, number>();
  const weighed = new Map<string, string>();
  let depths: Readonly<Record<string, DepthView>> = {};
  let solved: Readonly<Record<string, SolvedHole>> = {};
  let unsolved: Readonly<Record<string, string>> = {};
  let densities: Readonly<Record<string, DensityView>> = {};

  const without = <T>(record: Readonly<Record<string, T>>, name: string): Readonly<Record<string, T>> =>
    Object.fromEntries(Object.entries(record).filter(([key]) => key !== name));

  /** What a person confirmed changes no reading, and still changes what is asked. */
  const show = (id: string) => {
    const [one, own] = [followed.get(id), solved[id]];
    if (one && own) depths = { ...depths, [id]: depthView(one.hole, own.solution) };
  };

  /** While depths are on their way it waits for them: they change every place. */
  const weigh = (id: string) => {
    const one = followed.get(id);
    if (!watched.has(id) || one === undefined || waiting.has(id)) return;
    const inputs = densityInputs(one.hole, one, depths[id] ?? null);
    const text = JSON.stringify(inputs);
    if (weighed.get(id) === text) return;
    weighed.set(id, text);
    solver.ask({
      hole: id,
      task: { do: 'density', inputs },
      tell(outcome) {
        if (weighed.get(id) !== text) return;
        densities = {
          ...densities,
          [id]: outcome.ok ? outcome.answer : withoutDensity(id, outcome.problem),
        };
        onChange();
      },
    });
  };

  const solve = (hole: HoleView, others: CampaignView['others']) => {
    const { id } = hole;
    const before = followed.get(id);
    if (before?.hole === hole && isSameThings(before.others, others)) return;
    const readings = depthReadings(hole, { others });
    const all: DepthsAsked = { readings, assumptions: depthAssumptions(hole) };
    const asked = JSON.stringify(all);
    followed.set(id, { hole, others, asked });
    if (before?.asked === asked) {
      if (!waiting.has(id)) show(id);
      weigh(id);
      return;
    }
    waiting.add(id);
    solver.ask({
      hole: id,
      task: { do: 'depths', asked },
      tell(outcome) {
        if (followed.get(id)?.asked !== asked) return;
        waiting.delete(id);
        if (outcome.ok) {
          solved = { ...solved, [id]: { readings, solution: outcome.answer } };
          show(id);
          unsolved = without(unsolved, id);
        } else {
          depths = without(depths, id);
          solved = without(solved, id);
          unsolved = { ...unsolved, [id]: outcome.problem };
        }
        onChange();
        weigh(id);
      },
    });
  };

  return {
    get depths() {
      return depths;
    },
    get solved() {
      return solved;
    },
    get unsolved() {
      return unsolved;
    },
    get densities() {
      return densities;
    },
    get isBusy() {
      return waiting.size > 0;
    },
    follow(campaign) {
      for (const hole of campaign.holes) solve(hole, campaign.others);
    },
    watchDensity(hole) {
      watched.set(hole, (watched.get(hole) ?? 0) + 1);
      weigh(hole);
      return () => {
        const left = (watched.get(hole) ?? 0) - 1;
        if (left > 0) watched.set(hole, left);
        else watched.delete(hole);
      };
    },
    judge(hole) {
      const own = solved[hole];
      if (own === undefined) return Promise.resolve(null);
      const { readings, solution } = own;
      return new Promise((resolve) =>
        solver.ask({
          hole,
          task: { do: 'verdict', readings, solution },
          tell: (outcome) => resolve(outcome.ok ? outcome.answer : null),
        }),
      );
    },
    movements(id, before) {
      const [own, one] = [solved[id], followed.get(id)];
      if (own === undefined || one === undefined) return Promise.resolve(null);
      const after = solvedNow(own.readings, own.solution);
      return new Promise((resolve) =>
        solver.ask({
          hole: id,
          task: { do: 'movements', hole: one.hole, before, after },
          tell: (outcome) => resolve(outcome.ok ? outcome.answer : null),
        }),
      );
    },
  };
}

/** Set-ups and the like are listed anew with every entry; the things in the lists are the same until they change. */
function isSameThings(a: CampaignView['others'], b: CampaignView['others']): boolean {
  const kinds = Object.keys(b);
  return (
    kinds.length === Object.keys(a).length &&
    kinds.every((kind) => {
      const [before, now] = [a[kind] ?? [], b[kind] ?? []];
      return before.length === now.length && before.every((thing, at) => thing === now[at]);
    })
  );
}
