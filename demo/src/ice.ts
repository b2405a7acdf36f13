import { type Random, seeded } from '@firnbook/science/random';
import type { HolePlan } from './plan.ts';
import { densityAt, dustLayers, holeOffsets } from './site.ts';

/**
 * The ice of the invented holes and what an invented crew read off it. Nothing here was ever measured: the numbers
 * come out of a seeded stream, so that the same seed drills the same holes.
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
  /** Mark of the cable and the counter at it, where they were held against each other. */
  readonly check: { readonly mark: number; readonly counter: number } | null;
  /** True stub left standing, metres. */
  readonly stub: number;
  /** True depth of the scratches that the catchers of the run before left, metres. */
  readonly scratch: number;
  readonly current: number;
  readonly rotation: number;
  readonly breakLoad: number;
  readonly chips: number;
}

export interface TripPiece {
  readonly top: number;
  readonly bottom: number;
  /** As read on the bench, metres, to the millimetre. */
  readonly length: number;
  readonly topBreak: 'fits' | 'ground' | 'loss' | 'unsure' | 'handling';
  /** Lost ice as estimated, metres; null where there is none. */
  readonly loss: number | null;
  /** Grams on the balance, tare included, and millimetres by caliper. */
  readonly mass: number;
  readonly diameterTop: number;
  readonly diameterBottom: number;
  readonly features: readonly TripFeature[];
}

interface TripFeature {
  readonly what: 'melt layer' | 'crust' | 'dust' | 'crack';
  /** Below the piece's top, and how thick, metres. */
  readonly at: number;
  readonly thickness: number;
}

/** Of the tray that pieces are weighed on, grams. */
export const TARE = 412;

const CORE_DIAMETER = 98.2;

export function drill(plan: HolePlan, seed: number): readonly Trip[] {
  const chance = seeded(seed * 3 + plan.letter.charCodeAt(0));
  const trips: Trip[] = [];
  let hole = 0;
  let core = 0;
  for (let run = 1; hole < plan.target; run++) {
    const bottom = hole + advanceOf(plan, run, chance);
    const stub = stubOf(plan, run, bottom, core, chance);
    const lost = plan.lost.includes(run) ? 0.035 + 0.05 * chance.uniform() : 0;
    const shift = plan.zeroMoved !== undefined && run >= plan.zeroMoved.run ? plan.zeroMoved.by : 0;
    const counters = countersOf(plan, hole, bottom, shift, chance);
    const pieces = stub === null ? [] : breakUp(plan, run, core, bottom - stub, lost, chance);
    trips.push({
      run,
      bottom,
      ...counters,
      pieces,
      sounding: plan.sounded.includes(run)
        ? rounded(bottom + shift - 0.01 * chance.exponential() + 0.012 * chance.normal(), 2)
        : null,
      check: plan.checked.includes(run) ? checkOf(plan, bottom, chance) : null,
      stub: stub ?? bottom - core,
      scratch: hole - 0.038,
      current: rounded(4.1 + 0.012 * bottom + 0.4 * chance.normal(), 1),
      rotation: Math.round(96 + 5 * chance.normal()),
      breakLoad: rounded(1.2 + 0.045 * bottom + 0.5 * chance.normal() ** 2, 1),
      chips: rounded(2.2 + 0.3 * chance.normal(), 1),
    });
    if (stub !== null) core = bottom - stub;
    hole = bottom;
  }
  return trips;
}

/** Metres. The trip after an empty one is short: the barrel has to hold the ice of both. */
function advanceOf(plan: HolePlan, run: number, chance: Random): number {
  const usual = 0.86 + 0.05 * chance.normal();
  if (run === plan.empty) return 0.58;
  if (run === plan.empty + 1) return 0.41;
  return Math.min(0.95, Math.max(0.72, usual));
}

/** Ice left standing, metres; null where all of it was. */
function stubOf(plan: HolePlan, run: number, bottom: number, core: number, chance: Random): number | null {
  const usual = Math.min(0.06, 0.018 * chance.exponential());
  if (run === plan.empty) return null;
  if (run === plan.stub) return 0.235;
  // What was left comes up with the next run, all of it but the usual.
  return Math.min(usual, bottom - core - 0.1);
}

function countersOf(
  plan: HolePlan,
  hole: number,
  bottom: number,
  shift: number,
  chance: Random,
): { readonly from: number; readonly to: number } {
  const trip = 0.006 * chance.normal();
  const fill = hole === 0 ? 0 : 0.012 * chance.exponential();
  const read = (depth: number): number =>
    rounded((depth + shift) * (1 + plan.cableScale) + trip + 0.004 * chance.normal(), 2);
  return { from: hole === 0 ? 0 : read(hole - fill), to: read(bottom) };
}

/** The deepest mark, one every ten metres, that the hole lets through. */
function checkOf(plan: HolePlan, bottom: number, chance: Random): Trip['check'] {
  const mark = Math.floor(bottom / 10) * 10;
  return { mark, counter: rounded(mark * (1 + plan.cableScale) + 0.006 * chance.normal(), 2) };
}

function breakUp(
  plan: HolePlan,
  run: number,
  from: number,
  to: number,
  lost: number,
  chance: Random,
): readonly TripPiece[] {
  const mayBeMany = run === plan.orderUnsure || run === plan.foundLater;
  const count = mayBeMany ? 3 : to - from < 0.3 ? 1 : 1 + Math.floor(2.6 * chance.uniform());
  const cuts = Array.from({ length: count - 1 }, (_, i) => (i + 1 + 0.5 * (chance.uniform() - 0.5)) / count);
  const bias = 0.0007 * chance.normal();
  const limits = [0, ...cuts, 1].map((share) => from + lost + share * (to - from - lost));
  return limits.slice(0, -1).map((start, i) => {
    const topBreak = breakOf(i === 0 ? lost : 0, i, chance);
    const gap = gapOf(topBreak, chance);
    const top = run === 1 && i === 0 ? start : Math.min(start + gap, limits[i + 1]! - 0.02);
    const bottom = limits[i + 1]!;
    return {
      top,
      bottom,
      length: rounded(bottom - top + bias + 0.0025 * chance.normal(), 3),
      topBreak,
      loss: topBreak === 'loss' ? rounded(lost * (1 + 0.25 * chance.normal()), 2) : null,
      ...weighed(top, bottom, chance),
      features: seen(plan, top, bottom, chance),
    };
  });
}

function breakOf(lost: number, place: number, chance: Random): TripPiece['topBreak'] {
  const lot = chance.uniform();
  if (lost > 0) return 'loss';
  if (lot < 0.1) return 'unsure';
  if (lot < 0.13) return 'ground';
  return lot < 0.15 && place > 0 ? 'handling' : 'fits';
}

function gapOf(topBreak: TripPiece['topBreak'], chance: Random): number {
  switch (topBreak) {
    case 'unsure':
      return 0.008 * chance.exponential();
    case 'ground':
      return 0.012 * chance.exponential();
    case 'fits':
      return 0.0008 * chance.uniform();
    default:
      return 0;
  }
}

function weighed(
  top: number,
  bottom: number,
  chance: Random,
): Pick<TripPiece, 'mass' | 'diameterTop' | 'diameterBottom'> {
  const diameter = CORE_DIAMETER + 0.25 * chance.normal();
  const density = densityAt((top + bottom) / 2) * (1 + 0.004 * chance.normal());
  const volume = (Math.PI / 4) * (diameter / 1000) ** 2 * (bottom - top);
  return {
    mass: Math.round(density * volume * 1000 + TARE + 1.5 * chance.normal()),
    diameterTop: rounded(diameter + 0.15 * chance.normal(), 1),
    diameterBottom: rounded(diameter + 0.15 * chance.normal(), 1),
  };
}

function seen(plan: HolePlan, top: number, bottom: number, chance: Random): readonly TripFeature[] {
  const features: TripFeature[] = [];
  const length = bottom - top;
  const lot = chance.uniform();
  const place = chance.uniform();
  const size = chance.exponential();
  const put = (what: TripFeature['what'], at: number, thickness: number): void => {
    if (at + thickness < length)
      features.push({ what, at: rounded(at, 3), thickness: rounded(thickness, 3) });
  };
  if (lot < 0.13) put('melt layer', place * length, Math.min(0.06, 0.003 + 0.008 * size));
  else if (lot < 0.17) put('crust', place * length, 0.001);
  else if (lot < 0.2 && top > 70) put('crack', place * length, 0.01 + 0.03 * size);
  for (const depth of dustLayers) {
    const here = depth + holeOffsets[plan.letter];
    if (here > top && here < bottom) put('dust', here - top, 0.002);
  }
  return features;
}

const rounded = (value: number, places: number): number => Number(value.toFixed(places));
