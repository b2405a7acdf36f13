import { inverseOf } from './positive-definite.ts';

/** What is smoothed: means over intervals, in order of their middles, and how much each counts. */
export interface IntervalMeans {
  readonly middle: Float64Array;
  /** Mean square distance of a place in the interval from its middle: length^2/12. */
  readonly spread: Float64Array;
  /** Above 0 where it counts. */
  readonly weight: Float64Array;
}

/** The smooth value at a place is sum `by[k]` y[first + k]: linear in what was measured. */
export interface Smoother {
  readonly first: number;
  readonly by: Float64Array;
}

/** So many intervals that count are in reach at least, however narrow it is. */
const fewest = 6;

/**
 * Local regression (W. S. Cleveland 1979, J. Am. Stat. Assoc. 74, 829-836) of second order, with the tricube kernel
 * over a fixed reach, widened where fewer than six intervals are in it. An observation is the mean of the curve over
 * an interval: mean of (z - z0)^2 is (mid - z0)^2 + length^2/12, so long pieces don't flatten the curve. Of fewer
 * than six intervals in all a line is taken, of fewer than three a mean. Beyond the outermost middles the curve goes
 * on along its tangent.
 *
 * @param at where, in the unit of the intervals
 * @param reach half width of the kernel
 */
export const smootherAt = (data: IntervalMeans, at: number, reach: number): Smoother => {
  const { middle } = data;
  const end = Math.min(middle[middle.length - 1], Math.max(middle[0], at));
  const { first, last, h, value, slope } = localFit(data, end, reach);
  const by = new Float64Array(last - first + 1);
  const beyond = (at - end) / h;
  for (let i = first; i <= last; i++)
    by[i - first] = part(data, i, end, h, value) + (beyond === 0 ? 0 : beyond * part(data, i, end, h, slope));
  return { first, by };
};

/**
 * The smooth value at the middle of interval i, its own part in it, and the sum of the squares of all parts; as
 * `smootherAt`, without writing the parts down.
 *
 * @param values measured
 */
export const fittedAt = (
  data: IntervalMeans,
  values: Float64Array,
  i: number,
  reach: number,
): { readonly fit: number; readonly own: number; readonly squares: number } => {
  const at = data.middle[i];
  const { first, last, h, value } = localFit(data, at, reach);
  let [fit, own, squares] = [0, 0, 0];
  for (let k = first; k <= last; k++) {
    const l = part(data, k, at, h, value);
    fit += l * values[k];
    squares += l * l;
    if (k === i) own = l;
  }
  return { fit, own, squares };
};

const kernel = (x: number): number => {
  const distance = Math.abs(x);
  return distance >= 1 ? 0 : (1 - distance * distance * distance) ** 3;
};

type Row = readonly [number, number, number];

/** Part of interval i in a coefficient of the local curve: its weight times a row of the inverse times its basis. */
const part = (data: IntervalMeans, i: number, at: number, h: number, [a, b, c]: Row): number => {
  const x = (data.middle[i] - at) / h;
  const w = data.weight[i] * kernel(x);
  return w === 0 ? 0 : w * (a + b * x + c * (x * x + data.spread[i] / (h * h)));
};

/** Rows of the inverse of the normal matrix for the curve's value and its slope, in units of h. */
const localFit = (data: IntervalMeans, at: number, reach: number) => {
  const { first, last, h, counted } = within(data, at, reach);
  let [s0, s1, s2, q0, q1, q2] = [0, 0, 0, 0, 0, 0];
  for (let i = first; i <= last; i++) {
    const x = (data.middle[i] - at) / h;
    const w = data.weight[i] * kernel(x);
    const square = x * x + data.spread[i] / (h * h);
    s0 += w;
    s1 += w * x;
    s2 += w * x * x;
    q0 += w * square;
    q1 += w * x * square;
    q2 += w * square * square;
  }
  const normal = [
    [s0, s1, q0],
    [s1, s2, q1],
    [q0, q1, q2],
  ];
  for (let order = counted >= fewest ? 2 : counted >= 3 ? 1 : 0; order >= 0; order--) {
    const inverse = inverseOf(normal.slice(0, order + 1));
    if (inverse === null) continue;
    const row = (r: number): Row => [inverse[r][0], inverse[r][1] ?? 0, inverse[r][2] ?? 0];
    return { first, last, h, value: row(0), slope: order === 0 ? nothing : row(1) };
  }
  throw new RangeError('no interval counts');
};
const nothing: Row = [0, 0, 0];

/** Intervals whose middles are in reach, and the reach that holds `fewest` of those that count, where there are. */
const within = ({ middle, weight }: IntervalMeans, at: number, reach: number) => {
  const n = middle.length;
  let first = firstFrom(middle, at - reach);
  let last = firstFrom(middle, at + reach) - 1;
  let counted = 0;
  for (let i = first; i <= last; i++) if (weight[i] > 0) counted += 1;
  let farthest = 0;
  while (counted < fewest && (first > 0 || last < n - 1)) {
    const up = first > 0 ? at - middle[first - 1] : Number.POSITIVE_INFINITY;
    const down = last < n - 1 ? middle[last + 1] - at : Number.POSITIVE_INFINITY;
    farthest = Math.min(up, down);
    const i = up <= down ? --first : ++last;
    if (weight[i] > 0) counted += 1;
  }
  // the kernel is 0 at its edge: a little beyond the farthest, so that it counts
  return { first, last, h: Math.max(reach, farthest * 1.001, 1e-9), counted };
};

/** Index of the first value not below x. */
const firstFrom = (sorted: Float64Array, x: number): number => {
  let low = 0;
  for (let high = sorted.length; low < high; ) {
    const half = (low + high) >> 1;
    if (sorted[half] < x) low = half + 1;
    else high = half;
  }
  return low;
};
