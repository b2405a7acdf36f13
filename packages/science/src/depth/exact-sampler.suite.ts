import type { Random } from '../random/index.ts';
import type { DepthAssumptions } from './assumptions.ts';
import type { DepthReadings } from './readings.ts';
import { levelSd, readingVariance, tolerances } from './tolerances.ts';

/**
 * The posterior of a small hole by slice sampling (R. Neal 2003, "Slice sampling", Ann. Stat. 31), one unknown after
 * the other. Slow and exact in the limit; written from the model's definition, without the solver's Gaussian
 * stand-ins: exponentials stay exponentials, breaks that fit are uniform, means are drawn. Only for holes whose
 * runs all have counter readings and pieces with lengths.
 */
export const sampleDepths = (
  readings: DepthReadings,
  a: DepthAssumptions,
  random: Random,
  sweeps: number,
) => {
  const runs = readings.runs.length;
  const pieces = readings.pieces.length;
  const runOf = readings.pieces.map((piece) => readings.runs.findIndex((run) => run.id === piece.run));
  // unknowns: D, stub, fill of every run; gap of every piece; cable, tape, fit mean is in the gaps, log means
  const D = 0;
  const stub = runs;
  const fill = 2 * runs;
  const gap = 3 * runs;
  const cable = gap + pieces;
  const tape = cable + 1;
  const soundingTape = cable + 2;
  const level = cable + 3;
  const size = level + 4;
  const x = new Float64Array(size);
  const width = new Float64Array(size);
  const t = tolerances;
  const own = readingVariance(a) + a.tripOffsetSd ** 2;
  const tie = a.tripOffsetSd ** 2;
  const det = own * own - tie * tie;
  const learned = levelSd(a);

  const mixed = (q: number, mean: number, rare: number, rareMean: number): number =>
    Math.log(((1 - rare) * Math.exp(-q / mean)) / mean + (rare * Math.exp(-q / rareMean)) / rareMean);

  const logDensity = (): number => {
    let sum =
      -0.5 *
      ((x[cable] / a.cableScaleSd) ** 2 +
        (x[tape] / a.tapeScaleSd) ** 2 +
        (x[soundingTape] / a.soundingTapeScaleSd) ** 2);
    for (let i = 0; i < 4; i++) sum -= 0.5 * (x[level + i] / learned) ** 2;
    const fillMean = a.fillMean * Math.exp(x[level]);
    const stubMean = a.stubMean * Math.exp(x[level + 1]);
    const gapMean = a.unsureGapMean * Math.exp(x[level + 2]);
    const groundMean = a.groundGapMean * Math.exp(x[level + 3]);
    let above = 0;
    let cored = 0;
    for (let r = 0; r < runs; r++) {
      const { from, to } = readings.runs[r];
      const s = x[stub + r];
      const f = x[fill + r];
      if (s < 0 || f < 0) return Number.NEGATIVE_INFINITY;
      const e0 = (from as number) - (above * (1 + x[cable]) - f);
      const e1 = (to as number) - x[D + r] * (1 + x[cable]);
      sum -= 0.5 * ((own * (e0 * e0 + e1 * e1) - 2 * tie * e0 * e1) / det);
      sum += mixed(s, stubMean, t.rareStub, t.rareStubMean) + mixed(f, fillMean, t.rareFill, t.rareFillMean);
      const barrel = readings.runs[r].barrelLength;
      const lead = x[gap + runOf.indexOf(r)];
      if (barrel !== undefined && x[D + r] - cored - lead > barrel) return Number.NEGATIVE_INFINITY;
      const end = x[D + r] - s;
      let apart = Number.NaN;
      let way = 0;
      let variance = 0;
      let n = 0;
      for (let i = 0; i < pieces; i++) {
        if (runOf[i] !== r) continue;
        const g = x[gap + i];
        const piece = readings.pieces[i];
        if (g < 0) return Number.NEGATIVE_INFINITY;
        if (piece.topBreak === 'fits') {
          if (g > a.fitGapMax) return Number.NEGATIVE_INFINITY;
        } else if (piece.topBreak === 'unsure') sum += mixed(g, gapMean, t.rareGap, t.rareGapMean);
        else if (piece.topBreak === 'ground') sum += mixed(g, groundMean, t.rareGap, t.rareGapMean);
        else {
          const loss = piece.loss as number;
          sum -= 0.5 * ((g - loss) / (a.lossSd + a.lossShareSd * loss)) ** 2;
        }
        // two readings of one length: the one or the other, at most once a run
        if (piece.lengths !== undefined) apart = piece.lengths[0] - (piece.length as number);
        way += g + (piece.length as number) * (1 + x[tape]);
        variance += a.lengthSdFirn ** 2;
        n += 1;
      }
      variance += n * n * a.runBiasSd ** 2;
      const one = -0.5 * ((end - cored - way) ** 2 / variance);
      if (Number.isNaN(apart)) sum += one;
      else sum += Math.log(Math.exp(one) + Math.exp(-0.5 * ((end - cored - way - apart) ** 2 / variance)));
      above = x[D + r];
      cored = end;
    }
    for (const sounding of readings.soundings) {
      const r = readings.runs.findIndex((run) => run.id === sounding.afterRun);
      const below = r + 1 < runs ? x[fill + r + 1] : 0;
      sum -= 0.5 * ((sounding.depth - x[D + r] * (1 + x[soundingTape]) + below) / sounding.sd) ** 2;
    }
    return sum;
  };

  // a start that breaks no rule
  let depth = 0;
  for (let r = 0; r < runs; r++) {
    x[D + r] = readings.runs[r].to as number;
    let length = 0;
    for (let i = 0; i < pieces; i++)
      if (runOf[i] === r) {
        const piece = readings.pieces[i];
        x[gap + i] = piece.topBreak === 'fits' ? a.fitGapMax / 2 : (piece.loss ?? 0.004);
        length += (piece.length as number) + x[gap + i];
      }
    depth += length;
    // where the next barrel could not hold a long stub, begin with ice lost instead
    const open = readings.pieces.findIndex(
      (piece, i) => runOf[i] === r && (piece.topBreak === 'unsure' || piece.topBreak === 'ground'),
    );
    const spare = x[D + r] - depth - 0.03;
    if (readings.runs[r + 1]?.barrelLength !== undefined && spare > 0 && open >= 0) {
      x[gap + open] += spare;
      depth += spare;
    }
    x[stub + r] = Math.max(0.001, x[D + r] - depth);
    x[fill + r] = 0.01;
  }
  width.fill(0.02);
  width[cable] = a.cableScaleSd;
  width[tape] = a.tapeScaleSd;
  width[soundingTape] = a.soundingTapeScaleSd;
  width.fill(1, level);
  for (let i = 0; i < pieces; i++) if (readings.pieces[i].topBreak === 'fits') width[gap + i] = a.fitGapMax;

  const slice = (move: (by: number) => void, w: number): void => {
    const at = logDensity() - random.exponential();
    let low = -w * random.uniform();
    let high = low + w;
    const density = (by: number): number => {
      move(by);
      const value = logDensity();
      move(-by);
      return value;
    };
    for (let i = 0; i < 40 && density(low) > at; i++) low -= w;
    for (let i = 0; i < 40 && density(high) > at; i++) high += w;
    for (;;) {
      const by = low + (high - low) * random.uniform();
      move(by);
      if (logDensity() > at) return;
      move(-by);
      if (by < 0) low = by;
      else high = by;
    }
  };

  const bottoms = Array.from({ length: runs }, () => [] as number[]);
  const holes = Array.from({ length: runs }, () => [] as number[]);
  const stubs = Array.from({ length: runs }, () => [] as number[]);
  for (let sweep = -sweeps / 10; sweep < sweeps; sweep++) {
    for (let i = 0; i < size; i++)
      slice((by) => {
        x[i] += by;
      }, width[i]);
    // along the ridges: hole and stub together, all that lies below together
    for (let r = 0; r < runs; r++) {
      slice((by) => {
        x[D + r] += by;
        x[stub + r] += by;
      }, 0.02);
      slice((by) => {
        for (let q = r; q < runs; q++) x[D + q] += by;
      }, 0.02);
      // all core from here on, so far that one reading of a length is changed for the other
      slice((by) => {
        for (let q = r; q < runs; q++) x[stub + q] += by;
      }, 0.15);
    }
    if (sweep < 0) continue;
    for (let r = 0; r < runs; r++) {
      bottoms[r].push(x[D + r] - x[stub + r]);
      holes[r].push(x[D + r]);
      stubs[r].push(x[stub + r]);
    }
  }
  return { bottoms, holes, stubs };
};
