import type { Draft } from '@firnbook/journal';
import type { Sentence } from './texts/sentence.ts';

/** Text of readings as a person typed them, by field name of the kind's schema. */
export type Readings = Readonly<Record<string, string>>;

/** What a person wants done. The same commands serve screens, command line, imports and the demo. */
export type Command =
  | {
      readonly do: 'open campaign';
      readonly readings: Readings;
      readonly crew: readonly { readonly initials: string; readonly name?: string }[];
    }
  /** A new thing of a kind: person, hole, zero, run, piece, sounding. `hole` and `run` name the parents. */
  | {
      readonly do: 'log';
      readonly kind: string;
      readonly hole?: string;
      readonly run?: string;
      readonly readings: Readings;
    }
  /** First readings of fields that a thing has none of yet: the mass of a piece that lay on the bench as a length. */
  | { readonly do: 'add'; readonly thing: string; readonly readings: Readings }
  /** New readings beside the old ones; also settles two readings that contradict each other. */
  | { readonly do: 'correct'; readonly thing: string; readonly readings: Readings; readonly reason: string }
  | { readonly do: 'withdraw'; readonly thing: string; readonly reason: string }
  /** What was withdrawn counts again. */
  | { readonly do: 'restore'; readonly thing: string; readonly reason: string }
  /** Two things turn out to be one: `from` becomes part of `into`; readings settle where they differ. */
  | {
      readonly do: 'join';
      readonly into: string;
      readonly from: string;
      readonly readings?: Readings;
      readonly reason: string;
    };

/** Everything a decision may not make up itself: who, when, and names for new things. */
export interface Context {
  readonly by: string;
  /** ISO 8601 with offset. */
  readonly observedAt: string;
  readonly newId: () => string;
  /** The person has a PIN that could not be checked on this device: nothing above logging is taken in their name. */
  readonly unproven?: true;
}

/** Why a command was not taken: what was wrong, where, and what to do. */
export interface Refusal {
  readonly field?: string;
  readonly what: Sentence;
  readonly mend: Sentence;
}

/** A surprise that is taken anyway and shown as a question. */
export interface Doubt {
  readonly field: string;
  readonly what: Sentence;
  readonly likely: readonly { readonly label: Sentence; readonly readings: Readings }[];
}

export type Decision =
  | { readonly ok: true; readonly drafts: readonly Draft[]; readonly doubts: readonly Doubt[] }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };
