import type { Aside } from './aside.ts';
import type { DepthAssumptions } from './assumptions.ts';
import type { Ordered } from './order.ts';
import type { Tolerances } from './tolerances.ts';
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
export const bounds = (o: Ordered, a: DepthAssumptions, t: Tolerances, aside: Aside): Bounds => {
  let factor = 3;
  let found = boundsAt(o, a, t, aside, factor);
  while (found === undefined && factor < 1000) {
    factor *= 1.5;
    found = boundsAt(o, a, t, aside, factor);
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

const boundsAt = (
  o: Ordered,
  a: DepthAssumptions,
  t: Tolerances,
  aside: Aside,
  f: number,
): Bounds | undefined => {
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
  const stray = f * Math.sqrt(readingVariance(a) + a.tripOffsetSd ** 2);
  const stretch = Math.min(0.5, f * a.cableScaleSd);
  const least = (counter: number) => (counter - stray) / (1 + Math.sign(counter - stray) * stretch);
  const most = (counter: number) => (counter + stray) / (1 - Math.sign(counter + stray) * stretch);
  // after the counter's zero was moved its readings bound nothing
  const good = aside.zeros.length === 0 ? runs : Math.min(...aside.zeros) - 1;
  for (let r = 1; r <= good; r++) {
    const { from, to } = o.runs[r - 1];
    if (from !== undefined && !aside.from.has(r)) holeMin[r - 1] = Math.max(holeMin[r - 1], least(from));
    if (to === undefined || aside.to.has(r)) continue;
    holeMin[r] = Math.max(holeMin[r], least(to));
    holeMax[r] = Math.min(holeMax[r], most(to));
  }
  o.soundings.forEach((sounding, i) => {
    if (aside.soundings.has(i)) return;
    const r = o.runOfSounding[i];
    holeMin[r] = Math.max(holeMin[r], sounding.depth - f * sounding.sd);
  });

  // pieces: least and greatest gap and length
  const gapMin = new Float64Array(pieces);
  const gapMax = new Float64Array(pieces).fill(high);
  const lengthMin = new Float64Array(pieces);
  const lengthMax = new Float64Array(pieces).fill(high);
  const tape = f * a.tapeScaleSd;
  for (let i = 0; i < pieces; i++) {
    const piece = o.pieces[i];
    if (!aside.gaps.has(i)) {
      if (piece.topBreak === 'fits') gapMax[i] = a.fitGapMax;
      else if (piece.topBreak === 'loss' && piece.loss !== undefined) {
        const loose = f * (a.lossSd + a.lossShareSd * piece.loss);
        gapMin[i] = Math.max(0, piece.loss - loose);
        gapMax[i] = piece.loss + loose;
      }
    }
    if (piece.length === undefined || aside.lengths.has(i)) continue;
    const sd = o.nominal[o.runOfPiece[i]] > a.firnTo ? a.lengthSdIce : a.lengthSdFirn;
    const loose = f * (sd + a.runBiasSd);
    lengthMin[i] = Math.max(0, piece.length * (1 - tape) - loose);
    lengthMax[i] = piece.length * (1 + tape) + loose;
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
