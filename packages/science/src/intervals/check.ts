import { sumAgrees } from './agree.ts';
import { type BagCheck, checkBags, isTableOfParts } from './bag-check.ts';
import { findBagLength } from './bag-length.ts';
import { checkJunctions, type JunctionCheck } from './junctions.ts';
import { type ReadingOrder, readingOrders } from './reading-order.ts';
import type { BagLength, Closure, IntervalOptions, IntervalRow, Misfit } from './rows.ts';

/**
 * Everything in a table of depth intervals that cannot all be true, O(rows) (O(rows log rows) where it has to be
 * sorted first).
 *
 * Two figures for the same depth disagree when no depth rounds to both: their difference is at least the sum of
 * their half units (0.25 and 0.26 do, 0.3 and 0.26 don't). A sum or difference of figures disagrees when it is off
 * by more than the half units of all that went in. Nothing else is tolerated and nothing else is reported.
 *
 * @param rows in the order of the table; rows that say nothing are passed over
 */
export const checkIntervals = (rows: readonly IntervalRow[], options: IntervalOptions = {}): Closure => {
  const hasBags = rows.some((row) => row.bag !== undefined);
  const bagLength: BagLength | null =
    options.bagLength !== undefined
      ? { value: options.bagLength, half: 0, isGiven: true }
      : hasBags
        ? findBagLength(rows)
        : null;
  const isParts = isTableOfParts(rows);
  const twice = checkDuplicates(rows, isParts);
  const lengths = checkLengths(rows, bagLength, twice.rows);
  // the order in which the table contradicts itself least is the one it was meant in
  const best = readingOrders(rows)
    .map((way) => inOrder(rows, way, twice.rows, bagLength, isParts))
    .reduce((a, b) => (b.misfits.length < a.misfits.length ? b : a));
  const misfits = [...best.misfits, ...lengths.misfits, ...twice.misfits].sort((a, b) => a.row - b.row);
  let top: number | null = null;
  let bottom: number | null = null;
  for (const row of rows) {
    for (const figure of [row.top, row.bottom]) {
      if (figure === undefined) continue;
      if (top === null || figure.value < top) top = figure.value;
      if (bottom === null || figure.value > bottom) bottom = figure.value;
    }
  }
  return {
    misfits,
    rows: best.rows,
    junctions: best.junctions,
    lengths: lengths.compared,
    bags: best.bags,
    bagLength: hasBags || bagLength?.isGiven ? bagLength : null,
    bagLengthUnknown: hasBags && bagLength === null,
    order: best.order,
    top,
    bottom,
  };
};

const inOrder = (
  rows: readonly IntervalRow[],
  way: ReadingOrder,
  twice: ReadonlySet<number>,
  bagLength: BagLength | null,
  isParts: boolean,
) => {
  const places = way.places.filter((i) => !twice.has(i));
  const bags = checkBags(rows, places, bagLength, isParts);
  const joined = checkJunctions(rows, places, bagLength, bags.single, isParts);
  return {
    order: way.order,
    rows: way.places.length,
    junctions: joined.compared,
    bags: bags.compared,
    misfits: [...joined.misfits, ...withoutGaps(bags, joined)],
  };
};

/** Depths that leave their bags at a gap or overlap of the same size show that one again, not another slip. */
const withoutGaps = (bags: BagCheck, joined: JunctionCheck): readonly Misfit[] => {
  const jumps = new Map<number, number>();
  for (const { what, row, size } of joined.misfits)
    if (what === 'gap') jumps.set(row, size!);
    else if (what === 'overlap') jumps.set(row, -size!);
  let shift = 0;
  return bags.misfits.filter((bag) => {
    const jump = jumps.get(bag.row);
    const move = bag.size! - shift;
    if (bag.through !== undefined) shift = bag.size!;
    const isSame =
      jump !== undefined && bag.through !== undefined && sumAgrees(jump - move, 2 * bag.tolerance);
    return !isSame;
  });
};

const checkDuplicates = (rows: readonly IntervalRow[], isParts: boolean) => {
  const seen = new Map<string, number>();
  const twice = new Set<number>();
  const misfits: Misfit[] = [];
  rows.forEach((row, i) => {
    const { top, bottom, length, bag } = row;
    const hasDepth = (top ?? bottom) !== undefined;
    if (!hasDepth && (bag === undefined || isParts)) return;
    const bags = bag === undefined ? '' : `${bag.first}-${bag.last}`;
    const key = hasDepth ? `${top?.value} ${bottom?.value} ${length?.value} ${bags}` : bags;
    const before = seen.get(key);
    if (before === undefined) {
      seen.set(key, i);
      return;
    }
    twice.add(i);
    misfits.push({
      what: 'duplicate',
      row: i,
      before,
      from: top?.value ?? null,
      to: bottom?.value ?? null,
      size: top !== undefined && bottom !== undefined ? bottom.value - top.value : (length?.value ?? null),
      tolerance: 0,
    });
  });
  return { rows: twice, misfits };
};

const checkLengths = (
  rows: readonly IntervalRow[],
  bagLength: BagLength | null,
  twice: ReadonlySet<number>,
): { readonly misfits: readonly Misfit[]; readonly compared: number } => {
  const misfits: Misfit[] = [];
  let compared = 0;
  rows.forEach(({ top, bottom, length, bag }, i) => {
    if (length === undefined || twice.has(i)) return;
    const hasBoth = top !== undefined && bottom !== undefined;
    const hasNone = top === undefined && bottom === undefined;
    let should: number;
    let slack: number;
    if (hasBoth) {
      should = Math.abs(bottom.value - top.value);
      slack = top.half + bottom.half;
    } else if (hasNone && bag !== undefined && bagLength !== null) {
      const bags = bag.last - bag.first + 1;
      should = bags * bagLength.value;
      slack = bags * bagLength.half;
    } else return;
    compared += 1;
    if (sumAgrees(length.value - should, length.half + slack)) return;
    misfits.push({
      what: 'length',
      row: i,
      before: null,
      from: hasBoth ? Math.min(top.value, bottom.value) : null,
      to: hasBoth ? Math.max(top.value, bottom.value) : null,
      size: length.value - should,
      tolerance: length.half + slack,
    });
  });
  return { misfits, compared };
};
