import type { Random } from '../../random/index.ts';
import type { Conditions } from './conditions.ts';
import { heavy, rounded } from './draws.ts';
import { BARREL, type Trip } from './drill.ts';
import type { Habits } from './habits.ts';
import type { SeasonPlan } from './plan.ts';
import type { SeasonReadings, WrittenRun } from './season.ts';

export interface CounterLog {
  readonly runs: readonly WrittenRun[];
  readonly cableChecks: NonNullable<SeasonReadings['cableChecks']>;
  readonly zeros: NonNullable<SeasonReadings['zeros']>;
  /** Depth of the counter's zero at each run. */
  readonly zero: readonly number[];
}

/** The counter's offset from trip to trip where it is zeroed; its drift where it isn't. */
const TRIP_SD = 0.01;
const DRIFT_SD = 0.004;
const READING_SD = 0.007;
const STEP = 0.01;
const MARK_SD = 0.01;
/** Cable marks are ten metres apart. */
const MARK_STEP = 10;
const LEVEL_SD = 0.003;
/** The fixed mark at the hole stands this much below the first zero. */
const MARK_BELOW = 1.2;

/**
 * Reads the counter at touch-down and at the end of cutting. It is zeroed on every trip (not quite) or drifts, its
 * scale wanders slowly, the zero settles with the snow under the tripod and is another one after the crew change.
 */
export const readCounter = (
  random: Random,
  trips: readonly Trip[],
  plan: SeasonPlan,
  habits: Habits,
  c: Conditions,
): CounterLog => {
  let scale = c.cableScale;
  let zero = 0;
  let drift = 0;
  let before = 0;
  const out = { zero: [] as number[], cableChecks: [] as CounterLog['cableChecks'][number][] };
  const zeros: CounterLog['zeros'][number][] = [];
  const level = (fromRun: string) => {
    const height = rounded(MARK_BELOW - zero + LEVEL_SD * random.normal(), 0.001);
    zeros.push({ id: `zero ${zeros.length + 1}`, height, sd: LEVEL_SD, fromRun });
  };
  const checked = new Set([0.35, 0.7].map((share) => Math.floor(share * trips.length)));
  const runs = trips.map((trip, i): WrittenRun => {
    scale += c.cableWander * random.normal();
    const isNewCrew = i === c.secondCrewFrom;
    zero += c.zeroWander * random.normal() + (isNewCrew ? c.zeroJump : 0);
    if (i === 0 || isNewCrew) level(trip.id);
    drift = habits.resets ? TRIP_SD * heavy(random) : drift + DRIFT_SD * heavy(random);
    const shown = (cable: number) => rounded(cable * (1 + scale) + drift + READING_SD * heavy(random), STEP);
    const from = shown(before - trip.fill - zero);
    const to = shown(trip.bottom - zero);
    const isFromRead = random.uniform() >= plan.missedShare;
    const isToRead = random.uniform() >= plan.missedShare;
    before = trip.bottom;
    out.zero.push(zero);
    const mark = MARK_STEP * Math.floor(trip.bottom / MARK_STEP);
    if (checked.has(i) && mark > 0) {
      const counter = shown(mark + MARK_SD * heavy(random));
      out.cableChecks.push({ id: `check ${trip.id}`, afterRun: trip.id, counter, mark, sd: MARK_SD });
    }
    return {
      id: trip.id,
      ...(isFromRead ? { from } : {}),
      ...(isToRead ? { to } : {}),
      ...(habits.resets ? {} : { resets: false }),
      ...(habits.barrel ? { barrelLength: BARREL } : {}),
      ...(habits.catcherMarks ? { catcherHeight: rounded(c.catcherHeight, 0.005) } : {}),
    };
  });
  return { runs, ...out, zeros };
};
