import { textIn } from '../thing-view.ts';
import type { PieceView } from '../view.ts';

const words: ReadonlySet<string> = new Set(['wall snow', 'chip plug', 'milled']);

/** Ice that has a length and no depth: snow off the wall, a plug of chips, milled ice. Crumbled core is core. */
export const isOutOfPlace = (piece: Pick<PieceView, 'readings'>): boolean =>
  isOutOfPlaceWord(textIn(piece, 'ice'));

/** @param ice a word of the piece's field "ice" */
export const isOutOfPlaceWord = (ice: string): boolean => words.has(ice);
