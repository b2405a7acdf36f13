import { checkIntervals } from './check.ts';
import type { Closure, Figure, IntervalOptions, IntervalRow } from './rows.ts';

/** A row of a table that gives one depth and does not say of which end. */
export interface DepthRow extends Omit<IntervalRow, 'top' | 'bottom'> {
  readonly depth?: Figure;
}

/**
 * Lengths with one recorded depth: whether that is the piece's top or its bottom, by which of the two contradicts
 * the lengths less. On a tie: the bottom where the first depth is the first length, else the top.
 */
export const checkEitherEnd = (
  rows: readonly DepthRow[],
  options: IntervalOptions = {},
): { readonly side: 'top' | 'bottom'; readonly closure: Closure } => {
  const as = (side: 'top' | 'bottom') =>
    checkIntervals(
      rows.map(({ depth, ...rest }) => (depth === undefined ? rest : { ...rest, [side]: depth })),
      options,
    );
  const top = as('top');
  const bottom = as('bottom');
  const first = rows.find((row) => row.depth !== undefined);
  const isAtLength =
    first?.depth !== undefined &&
    first.length !== undefined &&
    Math.abs(first.depth.value - first.length.value) <= first.depth.half + first.length.half;
  const isBottom =
    bottom.misfits.length < top.misfits.length ||
    (bottom.misfits.length === top.misfits.length && isAtLength);
  return isBottom ? { side: 'bottom', closure: bottom } : { side: 'top', closure: top };
};
