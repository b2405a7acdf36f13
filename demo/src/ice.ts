import { type Random, seeded } from '@firnbook/science/random';

/**
 * The ice of an invented hole and what an invented crew read off it. Nothing here was ever measured: the numbers
 * come out of a seeded stream, so that the same seed drills the same hole.
 */
export interface Trip {
  readonly run: number;
  /** True depth of the hole's bottom after the run, metres. */
  readonly bottom: number;
  /** Counter at touch-down and at the end of cutting, metres, as displayed to the centimetre. */
  readonly from: number;
  readonly to: number;
  readonly pieces: readonly TripPiece[];
  /** Depth by weighted tape after the run, where it was taken. */
  readonly sounding: number | null;
}

export interface TripPiece {
  readonly top: number;
  readonly bottom: number;
  /** As read on the bench, metres, to the millimetre. */
  readonly length: number;
  readonly topBreak: 'fits' | 'loss' | 'unsure';
  /** Lost ice as estimated, metres; null where there is none. */
  readonly loss: number | null;
}

const RUNS = 36;
/** The run at whose top ice was ground away. */
export const LOST_AT = 14;
/** The run that left a stub, which the next one brought up. */
export const STUB_AT = 20;
/** The run that came up empty. */
export const EMPTY_AT = 27;
const SOUNDED: ReadonlySet<number> = new Set([18, 36]);

const CABLE_SCALE = 0.0016;

export function drill(seed: number): readonly Trip[] {
  const chance = seeded(seed);
  const trips: Trip[] = [];
  let hole = 0;
  let core = 0;
  for (let run = 1; run <= RUNS; run++) {
    const bottom = hole + advanceOf(run, chance);
    const stub = stubOf(run, bottom, core, chance);
    const lost = run === LOST_AT ? 0.063 : 0;
    const trip = { run, bottom, ...countersOf(hole, bottom, chance) };
    const pieces = stub === null ? [] : breakUp(run, core, bottom - stub, lost, chance);
    const sounding = SOUNDED.has(run) ? bottom - 0.01 * chance.exponential() + 0.012 * chance.normal() : null;
    trips.push({ ...trip, pieces, sounding: sounding === null ? null : rounded(sounding, 2) });
    if (stub !== null) core = bottom - stub;
    hole = bottom;
  }
  return trips;
}

/** Metres. The trip after an empty one is short: the barrel has to hold the ice of both. */
function advanceOf(run: number, chance: Random): number {
  const usual = 0.86 + 0.05 * chance.normal();
  if (run === EMPTY_AT) return 0.58;
  if (run === EMPTY_AT + 1) return 0.41;
  return Math.min(0.95, Math.max(0.72, usual));
}

/** Ice left standing, metres; null where all of it was. */
function stubOf(run: number, bottom: number, core: number, chance: Random): number | null {
  const usual = Math.min(0.06, 0.018 * chance.exponential());
  if (run === EMPTY_AT) return null;
  if (run === STUB_AT) return 0.235;
  // What was left comes up with the next run, all of it but the usual.
  return Math.min(usual, bottom - core - 0.1);
}

function countersOf(
  hole: number,
  bottom: number,
  chance: Random,
): { readonly from: number; readonly to: number } {
  const trip = 0.006 * chance.normal();
  const fill = hole === 0 ? 0 : 0.012 * chance.exponential();
  const read = (depth: number): number =>
    rounded(depth * (1 + CABLE_SCALE) + trip + 0.004 * chance.normal(), 2);
  return { from: hole === 0 ? 0 : read(hole - fill), to: read(bottom) };
}

function breakUp(run: number, from: number, to: number, lost: number, chance: Random): readonly TripPiece[] {
  const count = to - from < 0.3 ? 1 : 1 + Math.floor(2.6 * chance.uniform());
  const cuts = Array.from({ length: count - 1 }, (_, i) => (i + 1 + 0.5 * (chance.uniform() - 0.5)) / count);
  const bias = 0.0007 * chance.normal();
  const limits = [0, ...cuts, 1].map((share) => from + lost + share * (to - from - lost));
  return limits.slice(0, -1).map((start, i) => {
    const topBreak = i === 0 && lost > 0 ? 'loss' : chance.uniform() < 0.12 ? 'unsure' : 'fits';
    const gap =
      topBreak === 'unsure'
        ? 0.008 * chance.exponential()
        : topBreak === 'fits'
          ? 0.0008 * chance.uniform()
          : 0;
    const top = run === 1 && i === 0 ? start : Math.min(start + gap, limits[i + 1]! - 0.02);
    const bottom = limits[i + 1]!;
    return {
      top,
      bottom,
      length: rounded(bottom - top + bias + 0.0025 * chance.normal(), 3),
      topBreak,
      loss: topBreak === 'loss' ? rounded(lost * (1 + 0.25 * chance.normal()), 2) : null,
    };
  });
}

const rounded = (metres: number, places: number): number => Number(metres.toFixed(places));
