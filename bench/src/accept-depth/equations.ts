/** A term of an observation equation: unknown's place, coefficient. */
export type Term = readonly [number, number];

/** By how much a named reading moves when a bias is 1 m. */
export interface Shift {
  readonly reading: string;
  readonly by: number;
}

/** Sum of the terms = value, give or take sd; independent of all other equations. */
export interface Equation {
  readonly terms: readonly Term[];
  readonly value: number;
  readonly sd: number;
  /** Readings in it, and by how much its value moves with each. */
  readonly readings: readonly Shift[];
}

export interface Equations {
  readonly list: readonly Equation[];
  readonly size: () => number;
  /** Place of a new unknown, and of one that is normal about a mean. */
  readonly unknown: () => number;
  readonly known: (mean: number, variance: number) => number;
  readonly observe: (
    terms: readonly Term[],
    value: number,
    variance: number,
    readings?: readonly Shift[],
  ) => void;
}

export const equations = (): Equations => {
  let size = 0;
  const list: Equation[] = [];
  const observe: Equations['observe'] = (terms, value, variance, readings = []) => {
    list.push({ terms, value, sd: Math.sqrt(variance), readings });
  };
  const unknown = () => size++;
  return {
    list,
    size: () => size,
    unknown,
    observe,
    known: (mean, variance) => {
      const place = unknown();
      observe([[place, 1]], mean, variance);
      return place;
    },
  };
};
