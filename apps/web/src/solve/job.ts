import type { DensityInputs, DensityView, HoleView } from '@firnbook/campaign';
import type { DepthAssumptions, DepthReadings, DepthSolution } from '@firnbook/science/depth';
import type { DepthDifference, Solved, Verdict } from '@firnbook/science/depth-scales';
import type { Evaluation, Input } from '@firnbook/science/relations';

/** What another thread is asked to work out. */
export type Task =
  /** `asked`: a `DepthsAsked` as text, which travels several times as fast as the readings of a whole hole. */
  | { readonly do: 'depths'; readonly asked: string }
  /** After the last run of readings that are solved. */
  | { readonly do: 'verdict'; readonly readings: DepthReadings; readonly solution: DepthSolution }
  | { readonly do: 'density'; readonly inputs: DensityInputs }
  /** What moved between two states of a hole's depths; `hole` as it is at the later one. */
  | {
      readonly do: 'movements';
      readonly hole: HoleView;
      readonly before: Solved;
      readonly after: Solved;
    }
  /** A published relation, by its name, at what a person gave to the bench calculator. */
  | {
      readonly do: 'relation';
      readonly relation: string;
      readonly inputs: Readonly<Record<string, Input>>;
    };

export interface DepthsAsked {
  readonly readings: DepthReadings;
  readonly assumptions: DepthAssumptions;
}

export interface Answers {
  readonly depths: DepthSolution;
  readonly verdict: Verdict | null;
  readonly density: DensityView;
  readonly movements: DepthDifference;
  readonly relation: Pick<Evaluation, 'taken' | 'results'>;
}

export type Outcome<T> =
  | { readonly ok: true; readonly answer: T }
  /** It can't be worked out as it is; `problem` says why and what to do. */
  | { readonly ok: false; readonly problem: string };

/** `turn` comes back with the answer. */
export interface Job {
  readonly turn: number;
  readonly task: Task;
}

export interface Done {
  readonly turn: number;
  readonly outcome: Outcome<Answers[Task['do']]>;
}
