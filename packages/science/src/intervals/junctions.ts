import { sameDepth, sumAgrees } from './agree.ts';
import type { BagLength, Figure, IntervalRow, Misfit } from './rows.ts';

export interface JunctionCheck {
  readonly misfits: readonly Misfit[];
  readonly compared: number;
}

/** How deep the rows so far reach. */
interface End {
  readonly value: number;
  readonly half: number;
  readonly row: number;
  /** Computed from other figures, not itself printed. */
  readonly isSum: boolean;
}

/**
 * Each row's upper end against the lower end of the row before: gap or overlap. A lower end is the one recorded,
 * else top + length, else top + nominal length of the bags. Rows without a depth add their lengths until a depth
 * is recorded again.
 *
 * @param places rows in the order of depth, duplicates left out
 * @param single rows whose depth is known to be off alone (bag-check.ts)
 */
export const checkJunctions = (
  rows: readonly IntervalRow[],
  places: readonly number[],
  bagLength: BagLength | null,
  single: ReadonlySet<number>,
  isParts: boolean,
): JunctionCheck => {
  const misfits: Misfit[] = [];
  let compared = 0;
  let end: End | null = null;
  /** The deepest end so far; rows inside a longer one may be followed by one that goes on from there. */
  let reach: End | null = null;
  let isReachDoubted = false;

  const agrees = (figure: Figure, to: End) => {
    const halves = figure.half + to.half;
    return to.isSum ? sumAgrees(figure.value - to.value, halves) : sameDepth(figure.value - to.value, halves);
  };
  const compare = (
    figure: Figure,
    row: number,
    next: IntervalRow | undefined,
    bottom: Figure | undefined,
  ) => {
    if (end === null) return;
    compared += 1;
    if (agrees(figure, end)) {
      if (reach !== null && reach.value > end.value) isReachDoubted = true;
      return;
    }
    if (reach !== null && agrees(figure, reach)) return;
    const difference = figure.value - end.value;
    const isCovered = difference > 0 && reach !== null && reach.value > figure.value && !isReachDoubted;
    if (isCovered) return;
    // a row that lies wholly inside the one before overlaps with its own length, unless the table goes on from it
    const isInside =
      difference < 0 &&
      bottom !== undefined &&
      bottom.value < end.value &&
      !(next?.top !== undefined && sameDepth(next.top.value - bottom.value, next.top.half + bottom.half));
    const other = isInside ? bottom.value : end.value;
    misfits.push({
      what: difference > 0 ? 'gap' : 'overlap',
      row,
      before: end.row,
      from: Math.min(other, figure.value),
      to: Math.max(other, figure.value),
      size: Math.abs(figure.value - other),
      tolerance: figure.half + end.half,
    });
  };

  places.forEach((i, n) => {
    const row = rows[i];
    const next = n + 1 < places.length ? rows[places[n + 1]] : undefined;
    let { top, bottom } = row;
    if (top !== undefined && bottom !== undefined && !sumAgrees(Math.max(0, top.value - bottom.value), 0)) {
      misfits.push({
        what: 'reversed',
        row: i,
        before: null,
        from: bottom.value,
        to: top.value,
        size: top.value - bottom.value,
        tolerance: top.half + bottom.half,
      });
      const neighbours = (upper: Figure, lower: Figure) =>
        (end !== null ? Math.abs(upper.value - end.value) : 0) +
        (next?.top !== undefined ? Math.abs(next.top.value - lower.value) : 0);
      if (neighbours(bottom, top) < neighbours(top, bottom)) [top, bottom] = [bottom, top];
    }
    if (single.has(i)) {
      // its bag says where it ends
      end = bagEnd(row, i, bagLength);
      return;
    }
    if (top !== undefined) compare(top, i, next, bottom);
    const start: End | null =
      top === undefined ? end : { value: top.value, half: top.half, row: i, isSum: false };
    const sum: End | null =
      start === null || row.length === undefined
        ? null
        : { value: start.value + row.length.value, half: start.half + row.length.half, row: i, isSum: true };
    if (bottom !== undefined) {
      if (top === undefined && sum !== null) {
        // the row's own depth against what the rows above and its length come to
        end = { ...sum, row: start?.row ?? i };
        compare(bottom, i, undefined, undefined);
      }
      end = { value: bottom.value, half: bottom.half, row: i, isSum: false };
    } else if (sum !== null) end = sum;
    else if (top !== undefined && bagLength !== null && !isParts) {
      const bags = row.bag === undefined ? 1 : row.bag.last - row.bag.first + 1;
      const isNominal = row.bag !== undefined || bagLength.isGiven;
      end = isNominal
        ? {
            value: top.value + bags * bagLength.value,
            half: top.half + bags * bagLength.half,
            row: i,
            isSum: true,
          }
        : null;
    } else end = null;
    if (end !== null && (reach === null || end.value >= reach.value)) {
      reach = end;
      isReachDoubted = false;
    }
  });
  return { misfits, compared };
};

const bagEnd = (row: IntervalRow, i: number, bagLength: BagLength | null): End | null =>
  row.bag === undefined || bagLength === null
    ? null
    : {
        value: row.bag.last * bagLength.value,
        half: (row.top?.half ?? 0) + row.bag.last * bagLength.half,
        row: i,
        isSum: true,
      };
