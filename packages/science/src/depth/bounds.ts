import type { Aside } from './aside.ts';
import type { Job } from './model.ts';
import { readingVariance } from './tolerances.ts';

/** Least and greatest depths; runs at 0..runs, pieces in depth order, metres. */
export interface Bounds {
  readonly holeMin: Float64Array;
  readonly holeMax: Float64Array;
  readonly coreMin: Float64Array;
  readonly coreMax: Float64Array;
  readonly topMin: Float64Array;
  readonly topMax: Float64Array;
  readonly bottomMin: Float64Array;
  readonly bottomMax: Float64Array;
  /** Tolerances that had to be allowed: 3, or more where the readings contradict each other at 3. */
  readonly tolerances: number;
}

/**
 * What the constraints allow when every reading may stray by 3 of its tolerances: core below core, core above the
 * hole's bottom, hole never shallower, fill and gaps at least 0, nothing said of means. Readings set aside are left
 * out. If the readings contradict each other at 3 tolerances, the factor grows by halves until they don't; the
 * factor used is returned.
 *
 * All constraints are differences of neighbours on a ladder (core bottoms on one side, hole bottoms on the other),
 * so a pass down and a pass up, repeated until nothing moves (at most four times), bound everything. O(pieces).
 */
export const bounds = (job: Job, aside: Aside): Bounds => {
  const { o } = job;
  let factor = 3;
  let found = boundsAt(job, aside, factor);
  while (found === undefined && factor < 1000) {
    factor *= 1.5;
    found = boundsAt(job, aside, factor);
  }
  if (found !== undefined) return found;
  // nothing but the counter's zero could contradict itself this far: say nothing
  const anything = (n: number, value: number) => new Float64Array(n).fill(value);
  const n = o.runs.length + 1;
  const m = o.pieces.length;
  const low = Number.NEGATIVE_INFINITY;
  const high = Number.POSITIVE_INFINITY;
  return {
    holeMin: anything(n, low),
    holeMax: anything(n, high),
    coreMin: anything(n, low),
    coreMax: anything(n, high),
    topMin: anything(m, low),
    topMax: anything(m, high),
    bottomMin: anything(m, low),
    bottomMax: anything(m, high),
    tolerances: factor,
  };
};

const boundsAt = (job: Job, aside: Aside, f: number): Bounds | undefined => {
  const { o, a, t, corrections: c, lengths: l } = job;
  const runs = o.runs.length;
  const pieces = o.pieces.length;
  const low = Number.NEGATIVE_INFINITY;
  const high = Number.POSITIVE_INFINITY;
  const holeMin = new Float64Array(runs + 1).fill(low);
  const holeMax = new Float64Array(runs + 1).fill(high);
  const coreMin = new Float64Array(runs + 1).fill(low);
  const coreMax = new Float64Array(runs + 1).fill(high);

  if (o.nominal[0] < t.deepStart) {
    const surface = f * t.surfaceSd;
    holeMin[0] = coreMin[0] = -surface;
    holeMax[0] = coreMax[0] = surface;
  } else {
    const stretch = f * a.cableScaleSd + t.longestRun / o.nominal[0];
    holeMin[0] = o.nominal[0] * (1 - stretch) - t.longestRun;
    coreMin[0] = holeMin[0] - t.longestRun;
    holeMax[0] = o.nominal[0] * (1 + stretch) + t.longestRun;
  }
  // the counter
  const { zeros = [] } = o.readings;
  const [leastScale, mostScale] = scaleBounds(job, aside, f);
  const least = (counter: number) => counter / (1 + (counter > 0 ? mostScale : leastScale));
  const most = (counter: number) => counter / (1 + (counter > 0 ? leastScale : mostScale));
  const height = (j: number) => (j > 0 ? f * Math.sqrt(zeros[j].sd ** 2 + zeros[0].sd ** 2) : 0);
  // after the counter's zero was moved its readings bound nothing
  let good = aside.zeros.length === 0 ? runs : Math.min(...aside.zeros) - 1;
  let drift = 0;
  for (let r = 1; r <= good; r++) {
    const { from, to, resets } = o.runs[r - 1];
    drift = resets === false ? drift + a.offsetDriftSd ** 2 : 0;
    if (aside.heights.has(c.zeroOfRun[r])) good = r - 1;
    if (r > good) break;
    const stray = f * Math.sqrt(readingVariance(a) + a.tripOffsetSd ** 2 + drift) + height(c.zeroOfRun[r]);
    if (from !== undefined && !aside.from.has(r))
      holeMin[r - 1] = Math.max(holeMin[r - 1], least(from + c.from[r] - stray));
    if (to === undefined || aside.to.has(r)) continue;
    holeMin[r] = Math.max(holeMin[r], least(to + c.to[r] - stray));
    holeMax[r] = Math.min(holeMax[r], most(to + c.to[r] + stray));
  }
  o.soundings.forEach((sounding, i) => {
    if (aside.soundings.has(i) || aside.heights.has(c.zeroOfSounding[i])) return;
    const r = o.runOfSounding[i];
    const tape = sounding.by === 'cable mark' ? 0 : f * a.soundingTapeScaleSd * sounding.depth;
    const stray = f * sounding.sd + tape + height(c.zeroOfSounding[i]);
    holeMin[r] = Math.max(holeMin[r], sounding.depth + c.sounding[i] - stray);
  });

  // pieces: least and greatest gap and length
  const gapMin = new Float64Array(pieces);
  const gapMax = new Float64Array(pieces).fill(high);
  const lengthMin = new Float64Array(pieces);
  const lengthMax = new Float64Array(pieces).fill(high);
  for (let i = 0; i < pieces; i++) {
    const piece = o.pieces[i];
    if (!aside.gaps.has(i)) {
      if (piece.topBreak === 'fits') gapMax[i] = a.fitGapMax;
      else if (piece.topBreak === 'handling') gapMax[i] = 0;
      else if (piece.topBreak === 'sawn') {
        const kerf = piece.kerf ?? a.kerf;
        const loose = f * (piece.kerf === undefined ? a.kerfSd : a.givenKerfSd);
        gapMin[i] = Math.max(0, kerf - loose);
        gapMax[i] = kerf + loose;
      } else if (piece.topBreak === 'loss' && piece.loss !== undefined) {
        const loose = f * (a.lossSd + a.lossShareSd * piece.loss);
        gapMin[i] = Math.max(0, piece.loss - loose);
        gapMax[i] = piece.loss + loose;
      }
    }
    const length = l.value[i];
    if (Number.isNaN(length) || aside.lengths.has(i)) continue;
    const tape = l.tape[i] < 0 ? 0 : f * a.tapeScaleSd;
    const loose = f * (Math.sqrt(l.variance[i]) + (l.biased[i] === 1 ? a.runBiasSd : 0));
    const other = Number.isNaN(l.second[i]) ? length : l.second[i];
    lengthMin[i] = Math.max(0, Math.min(length, other) * (1 - tape) - loose);
    lengthMax[i] = Math.max(length, other) * (1 + tape) + loose;
  }
  const wayMin = new Float64Array(runs + 1);
  const wayMax = new Float64Array(runs + 1);
  for (let r = 1; r <= runs; r++)
    for (let i = o.first[r]; i < o.first[r + 1]; i++) {
      wayMin[r] += gapMin[i] + lengthMin[i];
      wayMax[r] += gapMax[i] + lengthMax[i];
    }

  for (let pass = 0, moved = true; moved && pass < 4; pass++) {
    moved = false;
    const raise = (side: Float64Array, at: number, value: number) => {
      if (value <= side[at]) return;
      side[at] = value;
      moved = true;
    };
    const lower = (side: Float64Array, at: number, value: number) => {
      if (value >= side[at]) return;
      side[at] = value;
      moved = true;
    };
    for (let r = 0; r <= runs; r++) {
      if (r > 0) {
        raise(coreMin, r, coreMin[r - 1] + wayMin[r]);
        lower(coreMax, r, coreMax[r - 1] + wayMax[r]);
        raise(holeMin, r, holeMin[r - 1]);
        lower(holeMax, r, holeMax[r - 1] + t.longestRun);
      }
      raise(holeMin, r, coreMin[r]);
      lower(coreMax, r, holeMax[r]);
    }
    for (let r = runs; r > 0; r--) {
      lower(holeMax, r - 1, holeMax[r]);
      raise(holeMin, r - 1, holeMin[r] - t.longestRun);
      lower(coreMax, r, holeMax[r]);
      lower(coreMax, r - 1, coreMax[r] - wayMin[r]);
      raise(coreMin, r - 1, coreMin[r] - wayMax[r]);
      raise(holeMin, r - 1, coreMin[r - 1]);
    }
    lower(coreMax, 0, holeMax[0]);
    for (let r = 0; r <= runs; r++)
      if (holeMin[r] > holeMax[r] + 1e-9 || coreMin[r] > coreMax[r] + 1e-9) return undefined;
  }

  const topMin = new Float64Array(pieces);
  const topMax = new Float64Array(pieces);
  const bottomMin = new Float64Array(pieces);
  const bottomMax = new Float64Array(pieces);
  for (let r = 1; r <= runs; r++) {
    let least = coreMin[r - 1];
    let most = coreMax[r - 1];
    for (let i = o.first[r]; i < o.first[r + 1]; i++) {
      topMin[i] = least + gapMin[i];
      topMax[i] = most + gapMax[i];
      bottomMin[i] = least = topMin[i] + lengthMin[i];
      bottomMax[i] = most = topMax[i] + lengthMax[i];
    }
    least = coreMin[r];
    most = coreMax[r];
    for (let i = o.first[r + 1] - 1; i >= o.first[r]; i--) {
      bottomMin[i] = Math.max(bottomMin[i], least);
      bottomMax[i] = Math.min(bottomMax[i], most);
      topMin[i] = Math.max(topMin[i], bottomMin[i] - lengthMax[i]);
      topMax[i] = Math.min(topMax[i], bottomMax[i] - lengthMin[i]);
      least = topMin[i] - gapMax[i];
      most = topMax[i] - gapMin[i];
    }
  }
  return { holeMin, holeMax, coreMin, coreMax, topMin, topMax, bottomMin, bottomMax, tolerances: f };
};

/** Least and greatest scale error of the cable: as it came, drifted over the whole hole, and as the checks allow. */
const scaleBounds = ({ o, a }: Job, aside: Aside, f: number): [number, number] => {
  const deepest = o.nominal.reduce((most, depth) => Math.max(most, depth), 0);
  const drift = f * a.cableScaleDriftSd * Math.sqrt(deepest);
  let low = -f * a.cableScaleSd;
  let high = f * a.cableScaleSd;
  (o.readings.cableChecks ?? []).forEach((check, i) => {
    if (aside.checks.has(i)) return;
    const stray = f * Math.sqrt(check.sd ** 2 + readingVariance(a) + a.tripOffsetSd ** 2);
    const seen = check.counter - check.mark;
    // checks that contradict each other at this tolerance bound nothing
    const lower = Math.max(low, (seen - stray) / check.mark - drift);
    const upper = Math.min(high, (seen + stray) / check.mark + drift);
    if (lower > upper) return;
    low = lower;
    high = upper;
  });
  return [Math.max(-0.5, low - drift), Math.min(0.5, high + drift)];
};
