import type { ColumnInput, ColumnPiece } from './input.ts';

/**
 * The part of a column that a window can show, so that panning over thousands of pieces touches dozens: the
 * pieces in it, whole runs, one more piece on either side, and every run that ends in or next to it.
 *
 * @param from metres
 * @param to metres
 */
export function near(input: ColumnInput, from: number, to: number): ColumnInput {
  const { pieces } = input;
  let first = Math.max(0, placeBelow(pieces, from) - 1);
  let end = placeBelow(pieces, to);
  while (first > 0 && pieces[first - 1]?.run === pieces[first]?.run) first -= 1;
  while (end < pieces.length && pieces[end]?.run === pieces[end - 1]?.run) end += 1;
  const kept = pieces.slice(Math.max(0, first - 1), end + 1);
  const cored = new Set(kept.map((piece) => piece.run));
  let before = 0;
  const wanted = input.runs.map((run) => {
    const depths = [run.holeBottom?.value, run.to].filter((depth) => depth != null);
    const [low, high] = [Math.min(before, ...depths), Math.max(before, ...depths)];
    before = depths[0] ?? before;
    return cored.has(run.id) || (high >= from && low <= to);
  });
  // A run without core begins where the one before it ended, so that one stays too.
  const runs = input.runs.filter((_, at) => wanted[at] || wanted[at + 1]);
  const features = input.features.filter((one) => one.bottom >= from && one.top <= to);
  return { ...input, pieces: kept, runs, features };
}

/** Number of pieces whose top lies above a depth; pieces stand from the top down. */
function placeBelow(pieces: readonly ColumnPiece[], depth: number): number {
  let [low, high] = [0, pieces.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (pieces[middle]!.top.value < depth) low = middle + 1;
    else high = middle;
  }
  return low;
}
