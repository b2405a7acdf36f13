/** What an entry of the sheet of published numbers holds as inputs. */
export type Inputs = Readonly<Record<string, unknown>>;

/** As the entry's expectation is shaped: a number, words, a list, or an object of them. */
export type Computed =
  | number
  | string
  | boolean
  | null
  | readonly Computed[]
  | { readonly [name: string]: Computed };

/** Computes a family of entries from their inputs, through public functions of the science room. */
export interface Evaluator {
  /** Ids of the family; the id says which relation is meant, never what its result is. */
  readonly ids: RegExp;
  /** @param id only where it names what the inputs leave out (which of several results is printed) */
  readonly compute: (inputs: Inputs, id: string) => Computed;
}

/** Entries that no function of ours computes, and why. */
interface NotComputed {
  readonly ids: RegExp;
  readonly because: string;
}

/** One section of the sheet. */
export interface Section {
  readonly section: string;
  readonly evaluators: readonly Evaluator[];
  readonly not: readonly NotComputed[];
}
