import type { Evaluation, Relation, ResultValue } from '@firnbook/science/relations';
import type { Said } from '../texts/say-here.ts';
import type { TextKey } from '../texts/t.ts';
import type { OpenBook } from './from-book.ts';
import type { Offers } from './offer.ts';

/** What a relation worked out; it can travel between threads. */
export type Worked = Pick<Evaluation, 'taken' | 'results'>;

/** How a camp says one quantity of a relation. */
export interface CampUnit {
  /** Codes, the one that a camp reads first. */
  readonly units: readonly string[];
  /** One standard deviation in the first of these units, where nobody says another: common practice, no source. */
  readonly sd?: number;
  /** The same as a share of the number. */
  readonly sdShare?: number;
  /** A first guess in the first unit, where neither the relation nor the book knows: common practice, no source. */
  readonly guess?: number;
  /** Cold is below zero: its sign is there already. */
  readonly start?: '-';
}

/** A number of the answer that is read across a tent. */
interface Headline {
  readonly label: Said;
  readonly figure: string;
}

interface Answer {
  readonly headlines: readonly Headline[];
  /** Sentences that a crew can read to each other. */
  readonly says: readonly Said[];
  /** What a person has to look at before acting: shown in the colour for it. */
  readonly warns?: readonly Said[];
}

/** One of the five questions that a camp asks every day. */
export interface Question {
  readonly key: 'density' | 'closure' | 'stretch' | 'box' | 'age';
  readonly relation: Relation;
  /** Quantities asked for up front, in the order of the work; the relation's others stand under "more". */
  readonly asked: readonly string[];
  readonly camp: Readonly<Record<string, CampUnit>>;
  /** Takes too long for a thread that a hand waits for. */
  readonly heavy?: true;
  /** Density of the core has to be computed for what the book knows. */
  readonly readsDensity?: true;
  readonly fromBook: (book: OpenBook) => Offers;
  /** What the book says in words about a quantity that it has no number of. */
  readonly notes?: (book: OpenBook) => Readonly<Record<string, string | undefined>>;
  /** What to hear before acting on the answer. */
  readonly caution?: TextKey;
  readonly answer: (worked: Worked) => Answer;
}

/** A single number among the results; null where the relation has none for these readings. */
export function numberOf(
  worked: Worked,
  name: string,
): { value: number; sd: number | null; unit: string } | null {
  const result: ResultValue | undefined = worked.results[name];
  if (result === undefined || typeof result.value !== 'number') return null;
  return { value: result.value, sd: typeof result.sd === 'number' ? result.sd : null, unit: result.unit };
}
