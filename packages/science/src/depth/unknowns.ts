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
 * mean of ground breaks, scales of further tapes, heights of zeros measured anew, scale and offset of a counter that
 * drift (values at knots, linear between), the scale of the sounding tape, offsets of zeros that moved unknown to
 * anybody.
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
  /** Variance of the offset that a row's start and end share. */
  readonly offsetVariance: Float64Array;
  readonly checks: readonly CheckRow[];
  readonly zeroHeights: readonly ZeroHeight[];
  /** Zeros that moved unknown to anybody: from which run on, and the offset's column. */
  readonly movedZeros: readonly { readonly run: number; readonly column: number }[];
}

interface Ties {
  readonly from: Int32Array;
  readonly column: Int16Array;
  /** Coefficient for both counter readings: times the depth where `scale` is 1. */
  readonly counter: Float64Array;
  readonly scale: Uint8Array;
  readonly sounding: Float64Array;
}

/** A cable check: value = sum of coefficients times globals, with this variance. */
interface CheckRow {
  readonly check: number;
  readonly columns: readonly number[];
  readonly coefficients: readonly number[];
  readonly value: number;
  readonly variance: number;
}

/** A zero's column; its variance by measurement. */
interface ZeroHeight {
  readonly zero: number;
  readonly column: number;
}

/** At most so many knots for a scale, and for an offset, that drifts: what lies between them is each run's own. */
const SCALE_KNOTS = 10;
const OFFSET_KNOTS = 24;
/** Runs from one knot of an offset to the next where there are few. */
const RUNS_A_KNOT = 6;
/** Metres from one knot of a scale to the next where the hole is shallow. */
const METRES_A_KNOT = 10;

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
  const scaleKnots = a.cableScaleDriftSd > 0 ? knotsOfScale(o, k) : [];
  k += scaleKnots.length;
  const offsets = driftingRuns(o, k);
  k += offsets.knots.length;
  const soundingScale = o.soundings.some((sounding) => sounding.by !== 'cable mark') ? k++ : -1;
  const movedZeros = aside.zeros.map((run) => ({ run, column: k++ }));

  const mean = new Float64Array(k);
  const precision = new Float64Array(k * k);
  const set = (column: number, sd: number) => {
    precision[column * k + column] += 1 / Math.max(sd, 1e-9) ** 2;
  };
  /** Column `two` is column `one` (none: 0) plus a step of this variance. */
  const walk = (one: number, two: number, variance: number) => {
    const weight = 1 / variance;
    precision[two * k + two] += weight;
    if (one < 0) return;
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
  scaleKnots.forEach(({ column, depth }, i) => {
    const before = i === 0 ? { column: -1, depth: 0 } : scaleKnots[i - 1];
    walk(before.column, column, a.cableScaleDriftSd ** 2 * (depth - before.depth));
  });
  for (const knot of offsets.knots)
    if (knot.before < 0) set(knot.column, a.tripOffsetSd);
    else walk(knot.before, knot.column, a.offsetDriftSd ** 2 * knot.runs);
  for (const { column } of movedZeros) set(column, t.zeroShiftSd);
  if (soundingScale >= 0) set(soundingScale, a.soundingTapeScaleSd);

  const offsetVariance = new Float64Array(rows.count + 1).fill(a.tripOffsetSd ** 2);
  const tieFrom = new Int32Array(rows.count + 2);
  const column: number[] = [];
  const counter: number[] = [];
  const scale: number[] = [];
  const sounding: number[] = [];
  const add = (at: number, inCounter: number, isScale: boolean, inSounding: number) => {
    column.push(at);
    counter.push(inCounter);
    scale.push(isScale ? 1 : 0);
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
    if (ofRun !== undefined) add(ofRun, 1, false, ofSounding === ofRun ? 1 : 0);
    if (ofSounding !== undefined && ofSounding !== ofRun) add(ofSounding, 0, false, 1);
    if (soundingScale >= 0 && taped.has(r - 1)) add(soundingScale, 0, false, o.nominal[r - 1]);
    if (r > n) continue;
    for (const { knot, weight, between } of near(scaleKnots, o.nominal[r])) {
      add(knot, weight, true, 0);
      offsetVariance[row] += between * (a.cableScaleDriftSd * o.nominal[r]) ** 2;
    }
    const drift = offsets.ofRun.get(r);
    if (drift !== undefined) {
      for (const [at, weight] of drift.knots) add(at, weight, false, 0);
      offsetVariance[row] = drift.between * a.offsetDriftSd ** 2;
    }
    for (const zero of movedZeros) if (zero.run <= r) add(zero.column, 1, false, 0);
  }
  tieFrom[rows.count + 1] = column.length;

  const checks: CheckRow[] = [];
  cableChecks.forEach((check, i) => {
    const r = o.place.get(check.afterRun) as number;
    const columns: number[] = [Global.cable];
    const coefficients = [check.mark];
    let variance = check.sd ** 2 + readingVariance(a) + a.tripOffsetSd ** 2;
    for (const { knot, weight, between } of near(scaleKnots, o.nominal[r])) {
      columns.push(knot);
      coefficients.push(weight * check.mark);
      variance += between * (a.cableScaleDriftSd * check.mark) ** 2;
    }
    const row = { check: i, columns, coefficients, value: check.counter - check.mark, variance };
    checks.push(row);
    if (aside.checks.has(i)) return;
    columns.forEach((x, p) => {
      columns.forEach((y, q) => {
        precision[x * k + y] += (coefficients[p] * coefficients[q]) / variance;
      });
    });
  });
  // the prior's mean: that of the globals without checks, moved by them
  const wanted = new Float64Array(k);
  for (const row of checks)
    if (!aside.checks.has(row.check))
      row.columns.forEach((x, p) => {
        wanted[x] += (row.coefficients[p] * row.value) / row.variance;
      });
  moveMean(precision, wanted, mean);
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
      scale: Uint8Array.from(scale),
      sounding: Float64Array.from(sounding),
    },
    offsetVariance,
    checks,
    zeroHeights,
    movedZeros,
  };
};

interface Knot {
  readonly column: number;
  readonly depth: number;
}

/** Depths of the hole at which the scale's drift is an unknown: where checks were made, and evenly in between. */
const knotsOfScale = (o: Ordered, column: number): Knot[] => {
  const n = o.runs.length;
  let deepest = 0;
  for (let r = 1; r <= n; r++) deepest = Math.max(deepest, o.nominal[r]);
  if (!(deepest > 0)) return [];
  const count = Math.max(2, Math.min(SCALE_KNOTS, Math.ceil(deepest / METRES_A_KNOT)));
  const depths = Array.from({ length: count }, (_, i) => (deepest * (i + 1)) / count);
  const out: Knot[] = [];
  for (const depth of depths) out.push({ column: column + out.length, depth });
  return out;
};

/** The knots about a depth, their weights, and the share of metres whose walk lies between them. */
const near = (
  knots: readonly Knot[],
  depth: number,
): { readonly knot: number; readonly weight: number; readonly between: number }[] => {
  if (knots.length === 0) return [];
  let i = 0;
  while (i < knots.length - 1 && knots[i].depth < depth) i++;
  const above = i === 0 ? 0 : knots[i - 1].depth;
  const span = knots[i].depth - above;
  const share = Math.max(0, Math.min(1, (depth - above) / span));
  const between = share * (1 - share) * span;
  const out = [{ knot: knots[i].column, weight: share, between }];
  if (i > 0) out.push({ knot: knots[i - 1].column, weight: 1 - share, between: 0 });
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

/** mean += precision^-1 (wanted - what `mean` gives of it): small and dense, Gauss-Jordan on the columns touched. */
const moveMean = (precision: Float64Array, wanted: Float64Array, mean: Float64Array): void => {
  const k = mean.length;
  // only scale and its drift are touched by checks, and these stand at mean 0 before
  const touched: number[] = [];
  for (let i = 0; i < k; i++) if (wanted[i] !== 0) touched.push(i);
  if (touched.length === 0) return;
  for (let grown = true; grown; ) {
    grown = false;
    for (let i = 0; i < k; i++)
      if (!touched.includes(i) && touched.some((j) => precision[i * k + j] !== 0)) {
        touched.push(i);
        grown = true;
      }
  }
  const m = touched.length;
  const lines = touched.map((i) => [...touched.map((j) => precision[i * k + j]), wanted[i]]);
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < m; j++) {
      if (j === i) continue;
      const times = lines[j][i] / lines[i][i];
      for (let col = i; col <= m; col++) lines[j][col] -= times * lines[i][col];
    }
  }
  touched.forEach((i, p) => {
    mean[i] += lines[p][m] / lines[p][p];
  });
};
