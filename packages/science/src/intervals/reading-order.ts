import type { Closure, IntervalRow } from './rows.ts';

export interface ReadingOrder {
  readonly order: Closure['order'];
  /** Indices of the rows that say something, from the shallowest on. */
  readonly places: readonly number[];
}

/**
 * The ways in which a table may be meant: as listed; where it ever steps up, also from its end, or sorted by
 * depth. A row without a depth of its own stays behind the row it follows.
 */
export const readingOrders = (rows: readonly IntervalRow[]): readonly ReadingOrder[] => {
  const places: number[] = [];
  const depth = new Float64Array(rows.length);
  let last = Number.NEGATIVE_INFINITY;
  let up = 0;
  let down = 0;
  rows.forEach((row, i) => {
    if (Object.keys(row).length === 0) return;
    places.push(i);
    const key = row.top?.value ?? row.bottom?.value ?? last;
    if (last !== Number.NEGATIVE_INFINITY) {
      if (key < last) up += 1;
      else if (key > last) down += 1;
    }
    depth[i] = last = key;
  });
  const ways: ReadingOrder[] = [{ order: 'as listed', places }];
  if (up === 0) return ways;
  if (up > down) ways.push({ order: 'upwards', places: places.toReversed() });
  ways.push({ order: 'sorted', places: places.toSorted((a, b) => depth[a] - depth[b] || a - b) });
  return ways;
};
