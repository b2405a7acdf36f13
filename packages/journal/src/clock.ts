import { wholeMilliseconds } from './ids.ts';

/**
 * Hybrid logical clock (Kulkarni et al. 2014, "Logical physical clocks"): near the wall clock where that is
 * right, later than everything heard in any case. A reading is text that sorts as time does: 15 digits of
 * milliseconds since 1970, '-', 6 digits that count readings within one millisecond.
 *
 * There is no clock state to keep: the latest stamp among the entries held is the clock, so it is as durable
 * as they are.
 */
const MILLISECONDS_LIMIT = 10 ** 15 - 1;
const COUNTER_LIMIT = 10 ** 6 - 1;

/** Earlier than every stamp that `tick` gives. */
export const FIRST_STAMP = '000000000000000-000000';

const STAMP = /^\d{15}-\d{6}$/;

export function isStamp(text: unknown): text is string {
  return typeof text === 'string' && STAMP.test(text);
}

/**
 * The stamp for the next entry: later than `latest` whatever the wall clock says.
 * At the end of the scale (year 33658, reachable only by a stamp made up on purpose) it stays there: order then
 * falls to device and sequence, and nothing stops.
 *
 * @param latest latest stamp among all entries held
 * @param now wall clock, ms since 1970; nonsense counts as 0
 */
export function tick(latest: string, now: number): string {
  const wall = wholeMilliseconds(now, MILLISECONDS_LIMIT);
  const { milliseconds, counter } = readStamp(latest);
  if (wall > milliseconds) return writeStamp(wall, 0);
  if (counter < COUNTER_LIMIT) return writeStamp(milliseconds, counter + 1);
  if (milliseconds < MILLISECONDS_LIMIT) return writeStamp(milliseconds + 1, 0);
  return latest;
}

/** What was heard from others moves the clock forward, never back. */
export function hear(latest: string, stamp: string): string {
  return stamp > latest ? stamp : latest;
}

/** Milliseconds by which a stamp lies ahead of a wall clock (negative: behind). Reported, never a reason to refuse (J7). */
export function stampAhead(stamp: string, now: number): number {
  return readStamp(stamp).milliseconds - wholeMilliseconds(now, MILLISECONDS_LIMIT);
}

export function readStamp(stamp: string): { readonly milliseconds: number; readonly counter: number } {
  return { milliseconds: Number(stamp.slice(0, 15)), counter: Number(stamp.slice(16)) };
}

function writeStamp(milliseconds: number, counter: number): string {
  return `${String(milliseconds).padStart(15, '0')}-${String(counter).padStart(6, '0')}`;
}
