import type { DepthDifference } from '@firnbook/science/depth-scales';
import type { Sentence } from '../texts/sentence.ts';
import { causeSentence, movedSentence } from './moved.ts';
import type { NameOf } from './verdict.ts';

/** A piece that moved by less did not move: half the last digit of a length. Metres. */
const MOVED = 0.0005;

/** What moved between two states of a hole's depths, to be told. */
export interface Comparison {
  /** Each change between the two, in the order in which they were made. */
  readonly changes: readonly Sentence[];
  /** Pieces that are in both. */
  readonly common: number;
  /** Those that moved, the farthest first, each with its causes. */
  readonly moved: readonly { readonly piece: string; readonly says: Sentence }[];
  /** Names of pieces that are only in the second, and only in the first. */
  readonly appeared: readonly string[];
  readonly gone: readonly string[];
}

export function comparison(difference: DepthDifference, nameOf: NameOf): Comparison {
  const { changes, moved, appeared, gone } = difference;
  return {
    changes: changes.map((change) => causeSentence(change, nameOf)),
    common: moved.length,
    moved: moved
      .filter(({ bottom }) => Math.abs(bottom) >= MOVED)
      .sort((a, b) => Math.abs(b.bottom) - Math.abs(a.bottom))
      .map((one) => ({ piece: one.piece, says: movedSentence(one, changes, nameOf) })),
    appeared: appeared.map(nameOf),
    gone: gone.map(nameOf),
  };
}
