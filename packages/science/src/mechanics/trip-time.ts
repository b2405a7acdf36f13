import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Metres, MetresPerSecond, Seconds } from '../units.ts';

/** How a crew's winch, drill and hands go. */
export interface TripPace {
  readonly lowering: MetresPerSecond;
  readonly hoisting: MetresPerSecond;
  /** Speed through the ice. */
  readonly penetration: MetresPerSecond;
  /** At the surface, a run. */
  readonly handling: Seconds;
}

const where = 'trip time';

const held = ({ lowering, hoisting, penetration, handling }: TripPace): void => {
  mustLie(where, 'speed of lowering', lowering, 1e-3, 20, 'm/s');
  mustLie(where, 'speed of hoisting', hoisting, 1e-3, 20, 'm/s');
  mustLie(where, 'speed through the ice', penetration, 1e-5, 1, 'm/s');
  mustLie(where, 'handling', handling, 0, 86_400, 's');
};

/**
 * Time of one run from depth z: z/v_down + length/rate + (z + length)/v_up + handling.
 *
 * @param from depth of the hole before the run, 0 to 5000 m
 * @param length of the run, 0 to 20 m
 * @throws QuantityError outside
 */
export const runTime = (from: Metres, length: Metres, pace: TripPace): Seconds => {
  held(pace);
  mustLie(where, 'depth', from, 0, 5000, 'm');
  mustLie(where, 'length of the run', length, 0, 20, 'm');
  return from / pace.lowering + length / pace.penetration + (from + length) / pace.hoisting + pace.handling;
};

/** A hole drilled through, without repairs, weather or a lost run. */
export interface WholeHole {
  readonly runs: number;
  readonly time: Seconds;
}

/**
 * Time of all runs of a hole, all as long as the first but the last one: the sum of `runTime`.
 *
 * @param from depth that is drilled already, m
 * @param to depth to reach, at least `from`
 * @param length of a full run, 0.01 to 20 m
 * @throws QuantityError outside
 */
export const holeTime = (from: Metres, to: Metres, length: Metres, pace: TripPace): WholeHole => {
  held(pace);
  mustLie(where, 'depth drilled already', from, 0, 5000, 'm');
  mustLie(where, 'depth to reach', to, 0, 5000, 'm');
  mustLie(where, 'length of a run', length, 0.01, 20, 'm');
  if (to < from)
    throw new QuantityError(where, `depth to reach is ${to} m`, `${from} m, drilled already, or more`);
  const way = to - from;
  // a run too many for a rounding error of the quotient would cost a whole trip
  const runs = Math.ceil(way / length - 1e-9);
  if (runs <= 0) return { runs: 0, time: 0 };
  const full = runs - 1;
  const last = way - full * length;
  // of the starting depths from, from + length, ... the full runs' add up to this
  const starts = full * from + (length * full * (full - 1)) / 2;
  const time =
    starts / pace.lowering +
    (starts + full * length) / pace.hoisting +
    (full * length) / pace.penetration +
    full * pace.handling +
    runTime(from + full * length, last, pace);
  return { runs, time };
};
