import type { Random } from '../../random/index.ts';
import { between, heavy, pick, rounded } from './draws.ts';
import type { Season, SeasonReadings, WrittenPiece, WrittenRun, WrittenSounding } from './season.ts';

export type SlipKind =
  | '10 cm'
  | '1 m'
  | 'swapped digits'
  | 'doubled piece'
  | 'missing piece'
  | 'wrong run'
  | 'zero moved'
  | 'lost ice not logged';

/** One slip that the crew made, and where. */
export interface TrueSlip {
  readonly kind: SlipKind;
  /** Place of the run in the season, from 0. */
  readonly at: number;
  readonly what: 'run' | 'piece' | 'sounding';
  readonly which: string;
  readonly field: 'from' | 'to' | 'length' | 'topBreak' | 'run' | 'number' | 'depth';
  /**
   * What was written less what should have been, metres; of ice that is missing from the log, its length below 0; of a
   * piece under a wrong run, its length; of two runs whose counter readings were exchanged, how far the first is off.
   */
  readonly size: number;
  /** Run under which the piece was written, or whose readings the run was given, where it was the wrong one. */
  readonly otherRun?: string;
}

export interface SlippedReadings {
  readonly readings: SeasonReadings;
  readonly slips: readonly TrueSlip[];
}

/** How often which; common practice, no source. */
const shares: Readonly<Record<SlipKind, number>> = {
  '10 cm': 0.3,
  '1 m': 0.16,
  'swapped digits': 0.16,
  'doubled piece': 0.07,
  'missing piece': 0.08,
  'wrong run': 0.08,
  'zero moved': 0.04,
  'lost ice not logged': 0.11,
};
/** Runs between two slips, so that it can be told which one was found. */
const APART = 5;
/** An exchange of digits below this is no slip that anybody would see. */
const LEAST_SWAP = 0.02;
const LEAST_LOST = 0.05;

interface Draft {
  readonly random: Random;
  readonly season: Season;
  readonly runs: WrittenRun[];
  pieces: WrittenPiece[];
  readonly soundings: WrittenSounding[];
}

type Target = Pick<TrueSlip, 'what' | 'which' | 'field' | 'at'> & { readonly value: number };

/** Readings of one run, each as likely: start, end, lengths, a sounding after it. */
const targetOf = (d: Draft, at: number): Target | undefined => {
  const run = d.runs[at];
  const all: Target[] = [];
  if (run.from !== undefined && at > 0)
    all.push({ what: 'run', which: run.id, field: 'from', at, value: run.from });
  if (run.to !== undefined) all.push({ what: 'run', which: run.id, field: 'to', at, value: run.to });
  for (const piece of d.pieces)
    if (piece.run === run.id && piece.length !== undefined && piece.outOfPlace !== true)
      all.push({ what: 'piece', which: piece.id, field: 'length', at, value: piece.length });
  for (const sounding of d.soundings)
    if (sounding.afterRun === run.id)
      all.push({ what: 'sounding', which: sounding.id, field: 'depth', at, value: sounding.depth });
  return all[Math.floor(d.random.uniform() * all.length)];
};

const write = (d: Draft, target: Target, value: number): void => {
  const put = <One extends { readonly id: string }>(list: One[], field: string) => {
    const i = list.findIndex((one) => one.id === target.which);
    list[i] = { ...list[i], [field]: value };
  };
  if (target.what === 'run') put(d.runs, target.field);
  else if (target.what === 'piece') put(d.pieces, 'length');
  else put(d.soundings, 'depth');
};

const changed = (d: Draft, kind: SlipKind, at: number, change: (target: Target) => number | undefined) => {
  const target = targetOf(d, at);
  const value = target && change(target);
  if (target === undefined || value === undefined || value < 0) return undefined;
  write(d, target, value);
  const { what, which, field } = target;
  return { kind, at, what, which, field, size: value - target.value };
};

const swap = (d: Draft, target: Target): number | undefined => {
  const text = target.value.toFixed(target.what === 'piece' ? 3 : 2);
  const places = [...text].map((_, i) => i).filter((i) => text[i] !== '.');
  const n = Math.floor(d.random.uniform() * (places.length - 1));
  const digits = [...text];
  [digits[places[n]], digits[places[n + 1]]] = [digits[places[n + 1]], digits[places[n]]];
  const value = Number(digits.join(''));
  return Math.abs(value - target.value) < LEAST_SWAP ? undefined : value;
};

/** Makes one slip of a kind at a run; undefined where it can't be made there. */
const make = (d: Draft, kind: SlipKind, at: number): TrueSlip | undefined => {
  switch (kind) {
    case '10 cm':
    case '1 m': {
      const by = kind === '1 m' ? 1 : 0.1;
      const sign = d.random.uniform() < 0.5 ? -1 : 1;
      return changed(d, kind, at, ({ value, what }) => {
        const other = rounded(value + sign * by, 0.001);
        return what === 'piece' && other < 0.01 ? rounded(value + by, 0.001) : other;
      });
    }
    case 'swapped digits':
      return changed(d, kind, at, (target) => swap(d, target));
    case 'zero moved':
      return moveZero(d, at);
    case 'wrong run':
      return d.random.uniform() < 0.35 ? exchange(d, at) : misplace(d, at);
    default:
      return ofPieces(d, kind, at);
  }
};

/** Pieces of a run that were measured one by one. */
const measured = (d: Draft, at: number): WrittenPiece[] => {
  const run = d.runs[at];
  return run?.trayTape === undefined
    ? d.pieces.filter((piece) => piece.run === run?.id && piece.outOfPlace !== true)
    : [];
};

const ofPieces = (d: Draft, kind: SlipKind, at: number): TrueSlip | undefined => {
  const { truth } = d.season;
  const here = measured(d, at);
  const any = here[Math.floor(d.random.uniform() * here.length)];
  if (any === undefined) return undefined;
  const spot = d.pieces.indexOf(any);
  const slip = (piece: WrittenPiece, field: TrueSlip['field'], size: number): TrueSlip => ({
    kind,
    at,
    what: 'piece',
    which: piece.id,
    field,
    size,
  });
  if (kind === 'doubled piece') {
    if (any.length === undefined) return undefined;
    // measured again, by somebody who did not know that it was done
    const length = Math.max(0.001, rounded(any.length + 0.002 * heavy(d.random), 0.001));
    const again: WrittenPiece = { id: `${any.id} again`, run: any.run, length, topBreak: 'fits' };
    d.pieces.splice(spot + 1, 0, again);
    return slip(again, 'length', length);
  }
  if (kind === 'missing piece') {
    if (here.length < 2) return undefined;
    const i = truth.pieceIds.indexOf(any.id);
    d.pieces.splice(spot, 1);
    return slip(any, 'length', truth.top[i] - truth.bottom[i]);
  }
  const gapAbove = (piece: WrittenPiece) => truth.gap[truth.pieceIds.indexOf(piece.id)];
  const lost = here.find((piece) => piece.topBreak === 'loss' && gapAbove(piece) > LEAST_LOST);
  if (lost === undefined) return undefined;
  const { loss: _, ...rest } = lost;
  d.pieces[d.pieces.indexOf(lost)] = { ...rest, topBreak: 'fits' };
  return slip(lost, 'topBreak', -gapAbove(lost));
};

/** The first piece of a run under the run before, or its last ones under the next. */
const misplace = (d: Draft, at: number): TrueSlip | undefined => {
  const isUp = d.random.uniform() < 0.5;
  const here = measured(d, at);
  const other = d.runs[isUp ? at - 1 : at + 1];
  if (here.length === 0 || other === undefined || other.trayTape !== undefined) return undefined;
  const moved = isUp ? here.slice(0, 1) : here.slice(-1 - Math.floor(d.random.uniform() * here.length));
  d.pieces = d.pieces.map((piece) => (moved.includes(piece) ? { ...piece, run: other.id } : piece));
  const size = moved.reduce((sum, piece) => sum + (piece.length ?? 0), 0);
  const which = moved[0].id;
  return { kind: 'wrong run', at, what: 'piece', which, field: 'run', size, otherRun: other.id };
};

/** Counter readings of a run and the next one exchanged. */
const exchange = (d: Draft, at: number): TrueSlip | undefined => {
  const [one, two] = [d.runs[at], d.runs[at + 1]];
  if (one.from === undefined || one.to === undefined || two?.from === undefined || two.to === undefined)
    return undefined;
  d.runs[at] = { ...one, from: two.from, to: two.to };
  d.runs[at + 1] = { ...two, from: one.from, to: one.to };
  const size = two.from - one.from;
  return { kind: 'wrong run', at, what: 'run', which: one.id, field: 'number', size, otherRun: two.id };
};

/** All later counter readings count from another zero. */
const moveZero = (d: Draft, at: number): TrueSlip | undefined => {
  const { random, runs } = d;
  const sign = random.uniform() < 0.5 ? -1 : 1;
  const size = rounded(sign * (random.uniform() < 0.5 ? 1 : between(random, 0.1, 0.5)), 0.01);
  const first = runs[at];
  if (at === 0 || first.from === undefined || first.from + size < 0) return undefined;
  for (let r = at; r < runs.length; r++) {
    const { from, to } = runs[r];
    runs[r] = {
      ...runs[r],
      ...(from === undefined ? {} : { from: rounded(from + size, 0.01) }),
      ...(to === undefined ? {} : { to: rounded(to + size, 0.01) }),
    };
  }
  return { kind: 'zero moved', at, what: 'run', which: first.id, field: 'from', size };
};

const TRIES = 20;

/**
 * The same season written down with slips.
 *
 * @param perReading slips per reading (starts, ends, lengths, soundings), 0 to 0.02: they are kept 5 runs apart
 */
export const withSlips = (random: Random, season: Season, perReading: number): SlippedReadings => {
  const { runs, pieces, soundings } = season.readings;
  const d: Draft = { random, season, runs: [...runs], pieces: [...pieces], soundings: [...soundings] };
  const slips: TrueSlip[] = [];
  const wanted = perReading * (2 * runs.length + pieces.length + soundings.length);
  const count = Math.floor(wanted) + (random.uniform() < wanted % 1 ? 1 : 0);
  for (let n = 0; n < count; n++) {
    const kind = pick(random, shares);
    for (let tries = 0; tries < TRIES; tries++) {
      const at = Math.floor(random.uniform() * runs.length);
      if (slips.some((slip) => Math.abs(slip.at - at) < APART)) continue;
      const slip = make(d, kind, at);
      if (slip === undefined) continue;
      slips.push(slip);
      break;
    }
  }
  return { readings: { ...season.readings, runs: d.runs, pieces: d.pieces, soundings: d.soundings }, slips };
};
