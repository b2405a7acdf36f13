import type { Random } from '../../random/index.ts';
import { heavy, rounded } from './draws.ts';
import type { Trip } from './drill.ts';
import type { WrittenSounding } from './season.ts';

const STEP = 0.01;

/** Soundings by weighted tape, evenly spread: the weight rests on what the next run will touch. */
export const sound = (
  random: Random,
  trips: readonly Trip[],
  /** Depth of the zero at each run. */
  zero: readonly number[],
  count: number,
  tapeScale: number,
): WrittenSounding[] => {
  if (count === 0) return [];
  const every = Math.max(1, Math.floor(trips.length / count));
  return trips.flatMap((trip, i) => {
    if ((i + 1) % every !== 0) return [];
    const fill = trips[i + 1]?.fill ?? 0;
    const sd = 0.03 + 0.0002 * trip.bottom;
    const read = (trip.bottom - fill - zero[i]) / (1 + tapeScale) + sd * heavy(random);
    return [
      {
        id: `s${trip.id}`,
        afterRun: trip.id,
        depth: Math.max(0, rounded(read, STEP)),
        sd: rounded(sd, 0.001),
      },
    ];
  });
};
