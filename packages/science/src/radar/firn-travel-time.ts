import { universal } from '../constants/universal.ts';
import type { FirnColumn } from '../firn/herron-langway.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Metres, Seconds } from '../units.ts';
import { travelTime } from './travel-time.ts';

/** Metres. No ice is thicker. */
const deepest = 5000;

/**
 * Two-way travel time to a depth of a column of firn whose water equivalent has a closed form: (2/c) (z + 0.845 w(z)).
 *
 * Source: Kovacs, Gow & Morey 1995 with Herron & Langway 1980 (see `refractiveIndex`, `herronLangway`).
 *
 * @param depth 0 to 5000 m
 * @throws QuantityError outside
 */
export const firnTravelTime = (column: FirnColumn, depth: Metres): Seconds => {
  mustLie('travel time in firn', 'depth', depth, 0, deepest, 'm');
  return travelTime(depth, column.waterEquivalent(depth));
};

/** The same for many depths; nothing is allocated. @throws QuantityError as above, for too little room */
export const firnTravelTimeAll = (
  column: FirnColumn,
  depths: ArrayLike<Metres>,
  out: Float64Array,
): Float64Array => {
  if (out.length < depths.length)
    throw new QuantityError('travel time in firn', `room for ${out.length} results`, `${depths.length}`);
  for (let i = 0; i < depths.length; i++) out[i] = firnTravelTime(column, depths[i]);
  return out;
};

/**
 * Depth that a two-way travel time reaches in a column of firn, to a micrometre: Newton's steps, held between the depths
 * of a column of air and of one of ice.
 *
 * @param time 0 to that of 5000 m, s
 * @throws QuantityError outside
 */
export const depthOfTravelTime = (column: FirnColumn, time: Seconds): Metres => {
  mustLie('travel time in firn', 'travel time', time, 0, firnTravelTime(column, deepest), 's');
  const way = (time * universal.lightSpeed.value) / 2;
  const heaviest = travelTime(1, column.iceDensity / 1000) / travelTime(1, 0);
  let [low, high] = [way / heaviest, Math.min(way, deepest)];
  let depth = low;
  for (let step = 0; step < 100; step++) {
    const miss = firnTravelTime(column, depth) - time;
    if (miss < 0) low = Math.max(low, depth);
    else high = Math.min(high, depth);
    const slope = travelTime(1, column.density(depth) / 1000);
    const next = depth - miss / slope;
    const held = next >= low && next <= high ? next : (low + high) / 2;
    if (Math.abs(held - depth) < 1e-9) return held;
    depth = held;
  }
  return depth;
};
