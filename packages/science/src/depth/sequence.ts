import type { DepthReadings, RunReading } from './readings.ts';
import { slipRates } from './slips.ts';

/** A run whose number is wrong: where the counter says that it was drilled. */
export interface WrongNumber {
  readonly run: string;
  /** The run that it comes after, or (where only the counter readings were exchanged) whose readings it has. */
  readonly other: string;
  /** How far its start lies off where its number puts it, metres. */
  readonly size: number;
  readonly probability: number;
  /** Smaller ones are not seen. */
  readonly detectable: number;
}

/** Starts and ends that belong together lie closer than this; a run that is out of place is off by more. Metres. */
const CLOSE = 0.25;
const OFF = 0.35;
/** Lengths must fit the exchanged readings better by this before the pieces are believed to be in the right place. */
const BETTER = 0.15;

interface Told {
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Runs logged under a wrong number. The counter readings of such a run don't follow those before it, the readings
 * around it close without it, and somewhere else they leave just the gap that it fills. The run then moves there, and
 * its pieces with it; where only the counter readings of two neighbours were exchanged (the lengths say so), those
 * alone change places.
 */
export const misnumbered = (
  readings: DepthReadings,
): { readonly runs: readonly RunReading[]; readonly wrong: readonly WrongNumber[] } => {
  let runs = readings.runs;
  const wrong: WrongNumber[] = [];
  let i = 0;
  while (i < runs.length) {
    const found = outOfPlace(runs, i);
    if (found === undefined || wrong.length >= MOST) {
      i++;
      continue;
    }
    const { after, size } = found;
    const run = runs[i];
    const other = runs[after];
    const next = [...runs];
    if (after === i + 1 && countersOnly(readings, run, other)) {
      next[i] = counted(run, other);
      next[after] = counted(other, run);
    } else {
      next.splice(i, 1);
      next.splice(after < i ? after + 1 : after, 0, run);
    }
    runs = next;
    wrong.push({ run: run.id, other: other.id, size, probability: PROBABILITY, detectable: OFF });
  }
  return { runs, wrong };
};
/** More than this and the runs are in no order at all. */
const MOST = 8;
/** Without it two other readings at least would be wrong in a way that no known slip explains. */
const PROBABILITY = 1 / (1 + slipRates['no known slip'] ** 2 / slipRates['run attributed wrongly']);

const counted = (run: RunReading, by: RunReading): RunReading => ({
  ...run,
  from: by.from as number,
  to: by.to as number,
});

const told = (run: RunReading | undefined): Told | undefined =>
  run?.from === undefined || run.to === undefined || run.to - run.from < OFF
    ? undefined
    : { id: run.id, from: run.from, to: run.to };

/** Where run i belongs, if not where it stands. */
const outOfPlace = (
  runs: readonly RunReading[],
  i: number,
): { readonly after: number; readonly size: number } | undefined => {
  const here = runs[i];
  if (here.from === undefined || here.to === undefined) return undefined;
  const before = i === 0 ? undefined : runs[i - 1].to;
  // quick: nearly all runs start where the last one ended
  if (before !== undefined && Math.abs(here.from - before) <= OFF) return undefined;
  const run = told(here);
  const next = told(runs[i + 1]);
  if (run === undefined || next === undefined) return undefined;
  const start = before ?? 0;
  if (Math.abs(run.from - start) <= OFF || Math.abs(next.from - start) > CLOSE) return undefined;
  for (let k = 0; k < runs.length; k++) {
    if (k === i) continue;
    const end = runs[k].to;
    if (end === undefined || Math.abs(run.from - end) > CLOSE) continue;
    const follower = runs[k + 1 === i ? i + 1 : k + 1];
    if (follower !== undefined && (follower.from === undefined || Math.abs(follower.from - run.to) > CLOSE))
      continue;
    return { after: k, size: run.from - start };
  }
  return undefined;
};

/** Whether lengths of two neighbours say that their pieces are where they belong. */
const countersOnly = (readings: DepthReadings, one: RunReading, two: RunReading): boolean => {
  const lengthOf = (run: RunReading): number => {
    let sum = 0;
    for (const piece of readings.pieces) if (piece.run === run.id) sum += piece.length ?? 0;
    return sum;
  };
  const advance = (run: RunReading): number => (run.to as number) - (run.from as number);
  const a = lengthOf(one);
  const b = lengthOf(two);
  const asLogged = Math.abs(a - advance(one)) + Math.abs(b - advance(two));
  const exchanged = Math.abs(a - advance(two)) + Math.abs(b - advance(one));
  return exchanged + BETTER < asLogged;
};
