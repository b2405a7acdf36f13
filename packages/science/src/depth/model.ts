import type { Aside } from './aside.ts';
import type { DepthAssumptions } from './assumptions.ts';
import { Global, type Net } from './net.ts';
import type { Ordered } from './order.ts';
import { makeSites, startSite } from './sites.ts';
import { levelSd, readingVariance, type Tolerances } from './tolerances.ts';

/** Prior of the globals: scales about 0, mean of the breaks that fit, logs of the means about the first guess. */
const globalPrior = (a: DepthAssumptions, t: Tolerances, zeros: number) => {
  const k = Global.zero + zeros;
  const mean = new Float64Array(k);
  const precision = new Float64Array(k * k);
  const set = (column: number, sd: number) => {
    precision[column * k + column] = 1 / Math.max(sd, 1e-9) ** 2;
  };
  set(Global.cable, a.cableScaleSd);
  set(Global.tape, a.tapeScaleSd);
  set(Global.fit, t.fitMeanShare * a.fitGapMax);
  mean[Global.fit] = a.fitGapMax / 2;
  set(Global.loss, t.lossFactorSd);
  for (const level of [Global.fill, Global.stub, Global.unsure]) set(level, levelSd(a));
  for (let s = 0; s < zeros; s++) set(Global.zero + s, t.zeroShiftSd);
  return { mean, precision };
};

/** Where the chain begins: mean of (B_0, D_0) and precision as BB, BD, DD. */
const startOf = (o: Ordered, t: Tolerances): Pick<Net, 'startMean' | 'startPrecision'> => {
  const known = 1 / t.surfaceSd ** 2;
  if (o.nominal[0] < t.deepStart) return { startMean: [0, 0], startPrecision: [known, 0, known] };
  // begun at depth: D_0 unknown, the core above it ends within centimetres of it
  const far = 1 / t.unknownStartSd ** 2;
  const near = 1 / 0.05 ** 2;
  return { startMean: [o.nominal[0], o.nominal[0]], startPrecision: [near, -near, near + far] };
};

/**
 * The readings as a net: what every one of them is expected to be, and how far it may stray.
 *
 * A last, empty run is added so that a sounding after the last run has a fill to touch.
 */
export const model = (o: Ordered, a: DepthAssumptions, t: Tolerances, aside: Aside): Net => {
  const runs = o.runs.length + 1;
  const pieces = o.pieces.length;
  const from = new Float64Array(runs + 1).fill(Number.NaN);
  const to = new Float64Array(runs + 1).fill(Number.NaN);
  o.runs.forEach((run, i) => {
    const r = i + 1;
    if (run.from !== undefined && !aside.from.has(r)) from[r] = run.from;
    if (run.to !== undefined && !aside.to.has(r)) to[r] = run.to;
  });
  const first = new Int32Array(runs + 2);
  first.set(o.first);
  first[runs + 1] = pieces;

  const weight = new Float64Array(runs + 1);
  const weighted = new Float64Array(runs + 1);
  o.soundings.forEach((sounding, i) => {
    if (aside.soundings.has(i)) return;
    const found = o.runOfSounding[i] + 1;
    weight[found] += 1 / sounding.sd ** 2;
    weighted[found] += sounding.depth / sounding.sd ** 2;
  });
  const sounding = Float64Array.from(weight, (w, r) => (w > 0 ? weighted[r] / w : Number.NaN));
  const soundingVariance = Float64Array.from(weight, (w) => (w > 0 ? 1 / w : Number.NaN));

  const parts = 2 * pieces;
  const partMean = new Float64Array(parts);
  const partVariance = new Float64Array(parts);
  const partCoefficient = new Float64Array(parts);
  const partGlobal = new Int8Array(parts).fill(-1);
  const partSite = new Int32Array(parts).fill(-1);
  let count = 2 * runs;
  for (let i = 0; i < pieces; i++) {
    const piece = o.pieces[i];
    if (
      aside.gaps.has(i) ||
      piece.topBreak === 'unsure' ||
      (piece.topBreak === 'loss' && piece.loss === undefined)
    )
      partSite[2 * i] = count++;
    if (piece.length === undefined || aside.lengths.has(i)) partSite[2 * i + 1] = count++;
  }
  const sites = makeSites(count);

  const fitVariance = Math.max(1e-12, a.fitGapMax ** 2 / 12 - (t.fitMeanShare * a.fitGapMax) ** 2);
  for (let i = 0; i < pieces; i++) {
    const piece = o.pieces[i];
    const gap = 2 * i;
    const length = gap + 1;
    if (aside.gaps.has(i)) startSite(sites, partSite[gap], -1, t.freeGapMean, 0, 1);
    else if (piece.topBreak === 'unsure')
      startSite(sites, partSite[gap], Global.unsure, a.unsureGapMean, t.rareGap, t.rareGapMean);
    else if (piece.topBreak === 'fits') {
      partCoefficient[gap] = 1;
      partGlobal[gap] = Global.fit;
      partVariance[gap] = fitVariance;
    } else if (piece.loss === undefined)
      startSite(
        sites,
        partSite[gap],
        Global.unsure,
        t.lossInUnsureGaps * a.unsureGapMean,
        t.rareGap,
        t.rareGapMean,
      );
    else {
      partMean[gap] = piece.loss;
      partCoefficient[gap] = piece.loss;
      partGlobal[gap] = Global.loss;
      partVariance[gap] = (a.lossSd + a.lossShareSd * piece.loss) ** 2;
    }
    if (partSite[length] >= 0) startSite(sites, partSite[length], -1, t.unknownLengthMean, 0, 1);
    else {
      const measured = piece.length as number;
      partMean[length] = measured;
      partCoefficient[length] = measured;
      partGlobal[length] = Global.tape;
      partVariance[length] = (o.nominal[o.runOfPiece[i]] > a.firnTo ? a.lengthSdIce : a.lengthSdFirn) ** 2;
    }
  }
  for (let r = 1; r <= runs; r++) {
    const empty = first[r] === first[r + 1];
    if (empty) startSite(sites, r - 1, -1, t.emptyStubMean, 0, 1);
    else startSite(sites, r - 1, Global.stub, a.stubMean, t.rareStub, t.rareStubMean);
    const afterEmpty = r > 1 && first[r - 1] === first[r];
    const rare = afterEmpty ? t.rareFillAfterEmpty : t.rareFill;
    const rareMean = afterEmpty ? t.rareFillAfterEmptyMean : t.rareFillMean;
    startSite(sites, runs + r - 1, Global.fill, a.fillMean, rare, rareMean);
  }
  const prior = globalPrior(a, t, aside.zeros.length);
  return {
    runs,
    pieces,
    from,
    to,
    sounding,
    soundingVariance,
    first,
    partMean,
    partVariance,
    partCoefficient,
    partGlobal,
    partSite,
    sites,
    globals: prior.mean.length,
    globalMean: prior.mean,
    globalPrecision: prior.precision,
    zeros: aside.zeros,
    ...startOf(o, t),
    runBiasVariance: a.runBiasSd ** 2,
    readingVariance: readingVariance(a),
    offsetVariance: a.tripOffsetSd ** 2,
  };
};
