import { sumAgrees } from './agree.ts';
import type { BagLength, Figure, IntervalRow, Misfit } from './rows.ts';

export interface BagCheck {
  readonly misfits: readonly Misfit[];
  readonly compared: number;
  /** Rows that are off alone, without a recorded lower end: the bag says it all, not a gap and an overlap beside it. */
  readonly single: ReadonlySet<number>;
}

interface Off {
  readonly figure: Figure;
  readonly bagDepth: number;
  readonly slack: number;
}

/** Several rows to a bag (pieces of it): then its first row begins it and its last row ends it. */
export const isTableOfParts = (rows: readonly IntervalRow[]): boolean => {
  let named = 0;
  let repeated = 0;
  let before: IntervalRow | null = null;
  for (const row of rows) {
    if (row.bag === undefined) continue;
    named += 1;
    if (before !== null && isSameBag(before, row) && (row.bottom ?? row.length) !== undefined) repeated += 1;
    before = row;
  }
  return repeated >= 0.2 * named && repeated > 0;
};

/**
 * Depths against bags: bag k from (k - 1) L to k L. Rows that are all off by the same are one misfit, at the first.
 *
 * @param places rows in the order of depth, duplicates left out
 */
export const checkBags = (
  rows: readonly IntervalRow[],
  places: readonly number[],
  bagLength: BagLength | null,
  isParts: boolean,
): BagCheck => {
  const misfits: Misfit[] = [];
  const single = new Set<number>();
  if (bagLength === null) return { misfits, compared: 0, single };
  const named = places.filter(
    (i) => rows[i].bag !== undefined && (rows[i].top ?? rows[i].bottom) !== undefined,
  );
  const ends = named.map((i, n) => {
    const row = rows[i];
    const isFirst = !isParts || n === 0 || !isSameBag(rows[named[n - 1]], row);
    const isLast = !isParts || n === named.length - 1 || !isSameBag(row, rows[named[n + 1]]);
    const list: Off[] = [];
    const add = (figure: Figure | undefined, bags: number) => {
      if (figure === undefined) return;
      list.push({ figure, bagDepth: bags * bagLength.value, slack: figure.half + bags * bagLength.half });
    };
    if (isFirst) add(row.top, row.bag!.first - 1);
    if (isLast) add(row.bottom, row.bag!.last);
    return list;
  });
  const fits = (list: readonly Off[], shift: number, slack = 0) =>
    list.every((end) => sumAgrees(end.figure.value - end.bagDepth - shift, end.slack + slack));

  let shift = 0;
  let shiftSlack = 0;
  let shifted = -1;
  named.forEach((i, n) => {
    const list = ends[n];
    if (list.length === 0) return;
    if (fits(list, shift, shiftSlack)) {
      if (shifted >= 0) misfits[shifted] = { ...misfits[shifted], through: i };
      return;
    }
    if (fits(list, 0)) {
      shift = shiftSlack = 0;
      shifted = -1;
      return;
    }
    const size = (end: Off) => end.figure.value - end.bagDepth;
    const worst = list.reduce((a, b) => (Math.abs(size(b) - shift) > Math.abs(size(a) - shift) ? b : a));
    misfits.push({
      what: 'bag',
      row: i,
      before: null,
      from: Math.min(worst.bagDepth, worst.figure.value),
      to: Math.max(worst.bagDepth, worst.figure.value),
      size: size(worst),
      tolerance: worst.slack,
    });
    const next = ends[n + 1];
    const isShift =
      fits(list, size(worst), worst.slack) &&
      next !== undefined &&
      next.length > 0 &&
      fits(next, size(worst), worst.slack) &&
      !fits(next, shift, shiftSlack) &&
      !fits(next, 0);
    if (isShift) {
      shift = size(worst);
      shiftSlack = worst.slack;
      shifted = misfits.length - 1;
    } else if (rows[i].bottom === undefined && rows[i].length === undefined) single.add(i);
  });
  return { misfits, compared: ends.filter((list) => list.length > 0).length, single };
};

const isSameBag = (a: IntervalRow, b: IntervalRow): boolean =>
  a.bag?.first === b.bag?.first && a.bag?.last === b.bag?.last;
