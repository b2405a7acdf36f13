import type { Dimension } from '../unit.ts';
import type { english } from './english.ts';

type Plural = 'one' | 'other';
type Named<K> = K extends `${infer Base}_${Plural}` ? Base : K;

/** A text of the catalogue; plural forms share one key. */
export type TextKey = Named<keyof typeof english>;

/**
 * Something said to people, as data: a catalogue puts it into their language, and their numbers into it. Nothing in
 * this room but the catalogue holds words that people read.
 */
export interface Sentence {
  readonly key: TextKey;
  readonly values: Readonly<Record<string, Value>>;
}

export type Value =
  /** A name, or what somebody typed: shown as it is. */
  | string
  /** How many; the one called `count` picks the plural. */
  | number
  /** Metres. */
  | { readonly length: number }
  /** Metres, with one standard deviation where it is known. */
  | { readonly depth: number; readonly sd?: number }
  /** A number in the base unit of its dimension, to be told in `unit`. */
  | { readonly measure: number; readonly of: Dimension; readonly unit: string }
  /** A day of the record, YYYY-MM-DD. */
  | { readonly day: string }
  | Sentence
  /** A list: "core, nothing". */
  | readonly (string | Sentence)[];

export const sentence = (key: TextKey, values: Sentence['values'] = {}): Sentence => ({ key, values });
