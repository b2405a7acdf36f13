import type { Aside } from './aside.ts';
import type { DepthAssumptions } from './assumptions.ts';
import type { Corrections } from './counters.ts';
import { Global } from './global.ts';
import type { Lengths } from './lengths.ts';
import type { Ordered } from './order.ts';
import type { Rows } from './rows.ts';
import { levelSd, readingVariance, type Tolerances } from './tolerances.ts';

/**
 * The globals of one hole: those that every hole has (`Global`), and after them, where the readings ask for them, the
 * mean of ground breaks, scales of further tapes, heights of zeros measured anew, the drifting offset of a counter that
 * is not zeroed (values at knots, linear between), the scale of the sounding tape, offsets of zeros that moved unknown
 * to anybody.
 */
export interface Unknowns {
  readonly count: number;
  readonly mean: Float64Array;
  /** count x count. */
  readonly precision: Float64Array;
  /** Columns that the way of a core may depend on, rising. */
  readonly wayColumns: Int16Array;
  /** Columns that are logs of learned means. */
  readonly levels: readonly number[];
  /** -1 where no break is ground. */
  readonly ground: number;
  /** Column of each tape's scale. */
  readonly tapes: Int16Array;
  /** What the counter of a row depends on beside D and the cable's scale: ties tieFrom[row]..tieFrom[row+1]-1. */
  readonly ties: Ties;
  /** Variance of the step that the cable's scale makes from the row above; for row 0 of its start. */
  readonly driftVariance: Float64Array;
  /** Variance of the offset that a row's start and end share. */
  readonly offsetVariance: Float64Array;
  /** Those that are not set aside. */
  readonly checks: readonly CheckRow[];
  readonly zeroHeights: readonly ZeroHeight[];
  /** Zeros that moved unknown to anybody: from which run on, and the offset's column. */
  readonly movedZeros: readonly { readonly run: number; readonly column: number }[];
}

interface Ties {
  readonly from: Int32Array;
  readonly column: Int16Array;
  /** Coefficient for both counter readings. */
  readonly counter: Float64Array;
  readonly sounding: Float64Array;
}

/** A cable check: value = mark x (the cable's scale, and its drift at this row), with this variance. */
interface CheckRow {
  readonly check: number;
  readonly row: number;
  readonly mark: number;
  readonly value: number;
  readonly variance: number;
}

/** A zero's column; its variance by measurement. */
interface ZeroHeight {
  readonly zero: number;
  readonly column: number;
}

/** At most so many knots for an offset that drifts: what lies between them is each run's own. */
const OFFSET_KNOTS = 24;
/** Runs from one knot of an offset to the next where there are few. */
const RUNS_A_KNOT = 6;
/** Where the hole does not deepen, or the scale does not drift: nearly no step, as a share of one metre's, and at all. */
const NO_STEP = 1e-8;
const LEAST_STEP = 1e-24;

export const unknowns = (
  o: Ordered,
  rows: Rows,
  a: DepthAssumptions,
  t: Tolerances,
  c: Corrections,
  l: Lengths,
  aside: Aside,
): Unknowns => {
  const n = o.runs.length;
  let k: number = Global.extra;
  const ground = o.pieces.some((piece) => piece.topBreak === 'ground') ? k++ : -1;
  const tapes = Int16Array.from(l.tapes, (_, i) => (i === 0 ? Global.tape : k++));
  const { zeros = [], cableChecks = [] } = o.readings;
  const used = new Set<number>();
  for (let r = 1; r <= n; r++) if (c.zeroOfRun[r] > 0) used.add(c.zeroOfRun[r]);
  for (const j of c.zeroOfSounding) if (j > 0) used.add(j);
  const zeroHeights = [...used].sort((x, y) => x - y).map((zero) => ({ zero, column: k++ }));
  const offsets = driftingRuns(o, k);
  k += offsets.knots.length;
  const soundingScale = o.soundings.some((sounding) => sounding.by !== 'cable mark') ? k++ : -1;
  const movedZeros = aside.zeros.map((run) => ({ run, column: k++ }));

  const mean = new Float64Array(k);
  const precision = new Float64Array(k * k);
  const set = (column: number, sd: number) => {
    precision[column * k + column] += 1 / Math.max(sd, 1e-9) ** 2;
  };
  /** Column `two` is column `one` plus a step of this variance. */
  const walk = (one: number, two: number, variance: number) => {
    const weight = 1 / variance;
    precision[two * k + two] += weight;
    precision[one * k + one] += weight;
    precision[one * k + two] -= weight;
    precision[two * k + one] -= weight;
  };
  set(Global.cable, a.cableScaleSd);
  for (const column of tapes) set(column, a.tapeScaleSd);
  set(Global.fit, t.fitMeanShare * a.fitGapMax);
  mean[Global.fit] = a.fitGapMax / 2;
  set(Global.loss, t.lossFactorSd);
  const levels = [Global.fill, Global.stub, Global.unsure, ...(ground < 0 ? [] : [ground])];
  for (const level of levels) set(level, levelSd(a));
  // heights above the first zero: each has its own error, all share that of the first
  let sum = 0;
  for (const { zero } of zeroHeights) sum += 1 / zeros[zero].sd ** 2;
  const first = zeroHeights.length > 0 ? zeros[0].sd ** 2 : 0;
  for (const { zero, column } of zeroHeights) {
    if (aside.heights.has(zero)) {
      set(column, t.zeroShiftSd);
      continue;
    }
    const own = 1 / zeros[zero].sd ** 2;
    precision[column * k + column] += own;
    for (const other of zeroHeights)
      if (!aside.heights.has(other.zero))
        precision[column * k + other.column] -=
          (own * first * (1 / zeros[other.zero].sd ** 2)) / (1 + first * sum);
  }
  for (const knot of offsets.knots)
    if (knot.before < 0) set(knot.column, a.tripOffsetSd);
    else walk(knot.before, knot.column, a.offsetDriftSd ** 2 * knot.runs);
  for (const { column } of movedZeros) set(column, t.zeroShiftSd);
  if (soundingScale >= 0) set(soundingScale, a.soundingTapeScaleSd);

  const offsetVariance = new Float64Array(rows.count + 1).fill(a.tripOffsetSd ** 2);
  const tieFrom = new Int32Array(rows.count + 2);
  const column: number[] = [];
  const counter: number[] = [];
  const sounding: number[] = [];
  const add = (at: number, inCounter: number, inSounding: number) => {
    column.push(at);
    counter.push(inCounter);
    sounding.push(inSounding);
  };
  const shiftOf = new Map(zeroHeights.map((one) => [one.zero, one.column]));
  const soundingZero = new Int32Array(n + 2).fill(-1);
  for (let i = 0; i < c.zeroOfSounding.length; i++)
    soundingZero[o.runOfSounding[i] + 1] = c.zeroOfSounding[i];
  /** Runs after which the hole was sounded by weighted tape: these soundings share the tape's scale. */
  const taped = new Set<number>();
  o.soundings.forEach((sounding, i) => {
    if (sounding.by !== 'cable mark') taped.add(o.runOfSounding[i]);
  });
  const anything = k > Global.extra;
  for (let row = 1; row <= rows.count; row++) {
    const r = rows.run[row];
    tieFrom[row] = column.length;
    if (!anything || row !== rows.counter[r]) continue;
    const ofRun = r <= n ? shiftOf.get(c.zeroOfRun[r]) : undefined;
    const ofSounding = shiftOf.get(soundingZero[r]);
    if (ofRun !== undefined) add(ofRun, 1, ofSounding === ofRun ? 1 : 0);
    if (ofSounding !== undefined && ofSounding !== ofRun) add(ofSounding, 0, 1);
    if (soundingScale >= 0 && taped.has(r - 1)) add(soundingScale, 0, o.nominal[r - 1]);
    if (r > n) continue;
    const drift = offsets.ofRun.get(r);
    if (drift !== undefined) {
      for (const [at, weight] of drift.knots) add(at, weight, 0);
      offsetVariance[row] = drift.between * a.offsetDriftSd ** 2;
    }
    for (const zero of movedZeros) if (zero.run <= r) add(zero.column, 1, 0);
  }
  tieFrom[rows.count + 1] = column.length;

  const checks = cableChecks.flatMap((check, i): CheckRow[] => {
    if (aside.checks.has(i)) return [];
    const row = rows.counter[o.place.get(check.afterRun) as number];
    const variance = check.sd ** 2 + readingVariance(a) + a.tripOffsetSd ** 2;
    return [{ check: i, row, mark: check.mark, value: check.counter - check.mark, variance }];
  });
  return {
    count: k,
    mean,
    precision,
    wayColumns: Int16Array.from(
      [Global.tape, Global.fit, Global.loss, Global.unsure, ground, ...tapes.slice(1)].filter((x) => x >= 0),
    ).sort(),
    levels,
    ground,
    tapes,
    ties: {
      from: tieFrom,
      column: Int16Array.from(column),
      counter: Float64Array.from(counter),
      sounding: Float64Array.from(sounding),
    },
    driftVariance: driftSteps(o, rows, a, t),
    offsetVariance,
    checks,
    zeroHeights,
    movedZeros,
  };
};

/** A random walk over the depth of the hole, from its top down. */
const driftSteps = (o: Ordered, rows: Rows, a: DepthAssumptions, t: Tolerances): Float64Array => {
  const perMetre = a.cableScaleDriftSd ** 2;
  const out = new Float64Array(rows.count + 1);
  out[0] = LEAST_STEP + perMetre * Math.max(NO_STEP, o.nominal[0]);
  for (let row = 1; row <= rows.count; row++) {
    const r = rows.run[row];
    const isFirst = row === rows.counter[r] && r <= o.runs.length;
    // a reading that is metres off must not give the scale room for metres
    const metres = isFirst ? Math.min(t.longestRun, o.nominal[r] - o.nominal[r - 1]) : 0;
    out[row] = LEAST_STEP + perMetre * Math.max(NO_STEP, metres);
  }
  return out;
};

interface Drift {
  readonly knots: (readonly [number, number])[];
  /** Runs whose walk lies between the knots. */
  readonly between: number;
}

/** Runs whose counter was not zeroed: knots of their common offset, a walk from one to the next. */
const driftingRuns = (o: Ordered, column: number) => {
  const n = o.runs.length;
  const knots: { readonly column: number; readonly before: number; readonly runs: number }[] = [];
  const ofRun = new Map<number, Drift>();
  let drifting = 0;
  for (const run of o.runs) if (run.resets === false) drifting++;
  if (drifting === 0) return { knots, ofRun };
  const apart = Math.max(RUNS_A_KNOT, Math.ceil(drifting / OFFSET_KNOTS));
  for (let r = 1; r <= n; r++) {
    if (o.runs[r - 1].resets !== false) continue;
    let end = r;
    while (end < n && o.runs[end].resets === false) end++;
    // knots at r, r + apart, ..., end
    let at = r;
    let before = column + knots.length;
    knots.push({ column: before, before: -1, runs: 0 });
    ofRun.set(r, { knots: [[before, 1]], between: 0 });
    while (at < end) {
      const to = Math.min(end, end - at < 1.5 * apart ? end : at + apart);
      const here = column + knots.length;
      knots.push({ column: here, before, runs: to - at });
      for (let s = at + 1; s <= to; s++) {
        const share = (s - at) / (to - at);
        ofRun.set(s, {
          knots:
            share === 1
              ? [[here, 1]]
              : [
                  [before, 1 - share],
                  [here, share],
                ],
          between: share * (1 - share) * (to - at),
        });
      }
      before = here;
      at = to;
    }
    r = end;
  }
  return { knots, ofRun };
};
