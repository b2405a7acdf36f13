/** How a relation says what it takes and gives, so that the command line, the calculator and the pages need no more. */

interface Asked {
  /** As the formula writes it. */
  readonly symbol: string;
  /** In words, for a person: "height above the bed". */
  readonly what: string;
}

interface Bounded extends Asked {
  /** Unit in which `compute` takes it: a code of `relations/unit.ts`. */
  readonly unit: string;
  /** Least and most that is taken, in that unit. */
  readonly range: readonly [number, number];
  /** Why no more: a source, or "by definition", "what the formula can bear". */
  readonly because: string;
}

/** One number; with `usual` it may be left out. */
export interface NumberTaken extends Bounded {
  readonly kind: 'number';
  readonly usual?: number;
}
/** A series of numbers in one unit. */
export interface NumbersTaken extends Bounded {
  readonly kind: 'numbers';
}
/** A published variant, by name; the first one is taken where none is named. */
interface ChoiceTaken extends Asked {
  readonly kind: 'choice';
  readonly options: readonly string[];
}
/** Words: a code, a date, a list in its own writing. */
interface TextTaken extends Asked {
  readonly kind: 'text';
  readonly example: string;
  readonly usual?: string;
}
export type Taken = NumberTaken | NumbersTaken | ChoiceTaken | TextTaken;

export interface Given extends Asked {
  /** Unit of the result, a code of `relations/unit.ts`; '' for words. */
  readonly unit: string;
}

type Value<T extends Taken> = T extends NumberTaken
  ? number
  : T extends NumbersTaken
    ? readonly number[]
    : T extends { readonly options: readonly (infer O)[] }
      ? O
      : string;

export type Takes = Readonly<Record<string, Taken>>;
export type Gives = Readonly<Record<string, Given>>;
export type ValuesOf<T extends Takes> = { readonly [Name in keyof T]: Value<T[Name]> };
type ResultsOf<G extends Gives> = {
  readonly [Name in keyof G]: number | readonly number[] | string | null;
};

/** What a verdict sees of one result. */
interface Judged {
  readonly value: number | readonly number[] | string | null;
  readonly sd: number | readonly number[] | null;
  readonly parts: readonly { readonly from: string; readonly sd: number }[];
}

/** One published relation that a person can call by name. */
export interface Relation<T extends Takes = Takes, G extends Gives = Gives> {
  /** Name on the command line: words joined by hyphens, "nye-age". */
  readonly name: string;
  readonly title: string;
  /** Stem of its page in docs/method. */
  readonly page: string;
  /** Author year, title or journal, equation, doi; "from memory" where it was not seen. */
  readonly source: string;
  readonly takes: T;
  readonly gives: G;
  /** What a person must hear before acting on the result; only where the work can hurt someone or ice. */
  readonly caution?: string;
  /** @throws QuantityError for what it can't take */
  readonly compute: (given: ValuesOf<T>) => ResultsOf<G>;
  /**
   * Standard uncertainty that the relation itself adds to a result, whatever the inputs' are (a published scatter).
   * A name left out has none that was published.
   */
  readonly own?: (given: ValuesOf<T>, results: ResultsOf<G>) => { readonly [Name in keyof G]?: number };
  /**
   * Words that uncertainties decide as well as values ("denser than ice can be"); they take the place of what `compute`
   * gives under the same name.
   */
  readonly verdict?: (
    given: ValuesOf<T>,
    results: { readonly [Name in keyof G]: Judged },
  ) => { readonly [Name in keyof G]?: string };
}

/** Keeps the types of the quantities together with the function that takes them. */
export const relation = <const T extends Takes, const G extends Gives>(made: Relation<T, G>): Relation =>
  made as unknown as Relation;

/** One number as a relation takes it. */
export const numberTaken = (
  symbol: string,
  what: string,
  unit: string,
  range: readonly [number, number],
  because: string,
): NumberTaken => ({ kind: 'number', symbol, what, unit, range, because });

/** A series of numbers as a relation takes it. */
export const numbersTaken = (
  symbol: string,
  what: string,
  unit: string,
  range: readonly [number, number],
  because: string,
): NumbersTaken => ({ kind: 'numbers', symbol, what, unit, range, because });
