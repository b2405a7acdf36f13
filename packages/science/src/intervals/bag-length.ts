import type { Metres } from '../units.ts';
import type { BagLength, IntervalRow } from './rows.ts';

interface Span {
  readonly bags: number;
  readonly length: Metres;
  readonly half: Metres;
}

interface Region {
  readonly low: number;
  readonly high: number;
  readonly share: number;
}

/** Pairs looked at per distance: enough for a majority, and the work stays O(rows). */
const most = 2000;
const majority = 0.5;
/** Of rows far apart: shifts between them must not win by chance. */
const largeMajority = 0.9;
/** Outliers may only touch the stretch of the others, and narrow it then. */
const nearly = 0.8;
const nominalDecimals = 3;

/**
 * Nominal length of a bag from a table, when bag k reaches from (k - 1) L to k L.
 *
 * Differences between rows say L x (difference of bag numbers) within the rounding of two figures. The L that the
 * most pairs allow is taken for neighbours, then narrowed with rows 2, 4, 8, ... apart as long as most of
 * the pairs agree, so that single slips and shifts of everything below a place do not move it. Where that leaves
 * more than a millimetre and a majority of the depths agrees with bags counted from zero, these narrow it. The
 * shortest decimal number in what remains is L; one of whole millimetres is taken as exact, since a bag's nominal
 * length is a round number.
 *
 * @returns null where the table does not tell
 */
export const findBagLength = (rows: readonly IntervalRow[]): BagLength | null => {
  const side = (name: 'top' | 'bottom') =>
    rows.flatMap((row) => {
      const figure = row[name];
      if (row.bag === undefined || figure === undefined) return [];
      return [{ bag: name === 'top' ? row.bag.first : row.bag.last, figure }];
    });
  const tops = side('top');
  const marks = tops.length >= 2 ? tops : side('bottom');
  const between = narrowed(marks);
  const own = mostAllow(ownSpans(rows), 0, Number.POSITIVE_INFINITY);
  const apart =
    between !== null && between.share > majority && between.share >= nearly * (own?.share ?? 0)
      ? between
      : own;
  if (apart === null || !(apart.share > majority) || !(apart.high > 0)) return null;
  const isSettled = apart.high - apart.low < 10 ** -nominalDecimals;
  const fromZero = isSettled ? null : mostAllow(spansFromZero(rows), apart.low, apart.high);
  const { low, high } = fromZero !== null && fromZero.share >= majority ? fromZero : apart;
  const value = shortestWithin(low, high);
  const isRound = Number(value.toFixed(nominalDecimals)) === value;
  return { value, half: isRound ? 0 : Math.max(high - value, value - low), isGiven: false };
};

const spansFromZero = (rows: readonly IntervalRow[]): readonly Span[] =>
  rows.flatMap(({ bag, top, bottom }) => {
    if (bag === undefined) return [];
    if (bottom !== undefined) return [{ bags: bag.last, length: bottom.value, half: bottom.half }];
    if (top === undefined || bag.first <= 1) return [];
    return [{ bags: bag.first - 1, length: top.value, half: top.half }];
  });

/** What single rows say of their own bags: needed where few rows can be compared. */
const ownSpans = (rows: readonly IntervalRow[]): readonly Span[] =>
  rows.flatMap(({ bag, top, bottom, length }) => {
    if (bag === undefined) return [];
    const bags = bag.last - bag.first + 1;
    if (top !== undefined && bottom !== undefined)
      return [{ bags, length: bottom.value - top.value, half: top.half + bottom.half }];
    if (length !== undefined) return [{ bags, length: length.value, half: length.half }];
    return [];
  });

type Marks = readonly { bag: number; figure: { value: number; half: number } }[];

const narrowed = (marks: Marks): Region | null => {
  let region = null as Region | null;
  for (let apart = 1; apart < marks.length; apart *= 2) {
    const spans: Span[] = [];
    const step = Math.max(1, Math.ceil((marks.length - apart) / most));
    for (let i = 0; i + apart < marks.length; i += step) {
      const a = marks[i];
      const b = marks[i + apart];
      const bags = Math.abs(b.bag - a.bag);
      if (bags === 0) continue;
      const length = (b.figure.value - a.figure.value) * Math.sign(b.bag - a.bag);
      spans.push({ bags, length, half: a.figure.half + b.figure.half });
    }
    const next: Region | null = mostAllow(spans, region?.low ?? 0, region?.high ?? Number.POSITIVE_INFINITY);
    if (next === null) continue;
    if (region !== null && next.share < largeMajority) break;
    const share: number = Math.min(next.share, region?.share ?? 1);
    region = { ...next, share };
  }
  return region;
};

/** The stretch of L that the most spans allow. */
const mostAllow = (spans: readonly Span[], low: number, high: number): Region | null => {
  const edges: { at: number; turn: 1 | -1 }[] = [];
  for (const { bags, length, half } of spans) {
    const slack = half + 1e-12 * Math.abs(length);
    const from = Math.max((length - slack) / bags, low);
    const to = Math.min((length + slack) / bags, high);
    if (from <= to) edges.push({ at: from, turn: 1 }, { at: to, turn: -1 });
  }
  edges.sort((a, b) => a.at - b.at || b.turn - a.turn);
  const open = new Int32Array(edges.length);
  let peak = 0;
  for (let i = 0, count = 0; i < edges.length; i++) {
    open[i] = count += edges[i].turn;
    if (count > open[peak]) peak = i;
  }
  if (edges.length === 0) return null;
  // a few spans that only touch the many must not narrow the stretch to a point
  const enough = nearly * open[peak];
  let from = peak;
  while (from > 0 && open[from - 1] >= enough) from -= 1;
  let to = peak;
  while (open[to + 1] >= enough) to += 1;
  return { low: edges[from].at, high: edges[to + 1].at, share: open[peak] / spans.length };
};

/** The number with the fewest decimals in [low, high], nearest to its middle. */
const shortestWithin = (low: number, high: number): number => {
  const middle = (low + high) / 2;
  for (let decimals = 0; decimals <= 12; decimals++) {
    const value = Number(middle.toFixed(decimals));
    if (value > 0 && value >= low && value <= high) return value;
  }
  return middle;
};
