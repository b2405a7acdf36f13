import type { Aside } from './aside.ts';
import type { DepthAssumptions } from './assumptions.ts';
import type { Corrections } from './counters.ts';
import { corrections } from './counters.ts';
import { Global } from './global.ts';
import { type Lengths, lengths } from './lengths.ts';
import { type Net, STILL } from './net.ts';
import type { Ordered } from './order.ts';
import { type Rows, rowsOf } from './rows.ts';
import { makeSites, startSite, startTwin } from './sites.ts';
import { readingVariance, type Tolerances } from './tolerances.ts';
import { unknowns } from './unknowns.ts';

/** All that the adjustment of one hole works from. */
export interface Job {
  readonly o: Ordered;
  readonly a: DepthAssumptions;
  readonly t: Tolerances;
  readonly rows: Rows;
  readonly corrections: Corrections;
  readonly lengths: Lengths;
  /** Pieces (id) that were found to belong to another run (id). */
  readonly moved: ReadonlyMap<string, string>;
}

export const makeJob = (o: Ordered, a: DepthAssumptions, t: Tolerances): Job => {
  const reduced = corrections(o);
  return {
    o,
    a,
    t,
    rows: rowsOf(o, a),
    corrections: reduced,
    lengths: lengths(o, a, reduced),
    moved: new Map(),
  };
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

/** A saw cut's, a handling break's zero gap, metres squared (0.1 mm). */
const CLOSED = 1e-8;

/** The readings as a net: what every one of them is expected to be, and how far it may stray. */
export const model = (job: Job, aside: Aside): Net => {
  const { o, a, t, rows: layout } = job;
  const rows = layout.count;
  const pieces = o.pieces.length;
  const parts = 2 * pieces;
  const known = unknowns(o, layout, a, t, job.corrections, job.lengths, aside);
  const slot = new Int8Array(known.count).fill(-1);
  known.wayColumns.forEach((column, i) => {
    slot[column] = i;
  });
  let count = 2 * rows;
  for (let i = 0; i < pieces; i++) {
    if (gapHasSite(job, aside, i)) count++;
    if (lengthHasSite(job, aside, i)) count++;
  }
  const room = count + SPARE + (rows >> 3);
  const column = (n: number, value = 0) => new Float64Array(n).fill(value);
  const net: Net = {
    rows,
    pieces,
    layout,
    unknowns: known,
    from: column(rows + 1, Number.NaN),
    to: column(rows + 1, Number.NaN),
    sounding: column(rows + 1, Number.NaN),
    soundingVariance: column(rows + 1, Number.NaN),
    partMean: column(parts),
    partVariance: column(parts),
    partCoefficient: column(parts),
    partGlobal: new Int16Array(parts).fill(-1),
    partSite: new Int32Array(parts).fill(-1),
    joint: job.lengths.joint,
    biased: job.lengths.biased,
    slot,
    rowMean: column(rows + 1),
    rowVariance: column(rows + 1),
    rowCoefficient: column((rows + 1) * known.wayColumns.length),
    firstSite: new Int32Array(rows + 1).fill(-1),
    nextSite: new Int32Array(room).fill(-1),
    sites: makeSites(room),
    siteCount: 2 * rows,
    globals: known.count,
    globalMean: known.mean,
    globalPrecision: known.precision,
    ...startOf(o, t),
    runBiasVariance: a.runBiasSd ** 2,
    readingVariance: readingVariance(a),
  };
  for (let r = 1; r <= o.runs.length; r++) setCounter(net, job, aside, r);
  for (let i = 0; i < o.soundings.length; i++) setSoundings(net, job, aside, o.runOfSounding[i]);
  for (let i = 0; i < pieces; i++) {
    setGap(net, job, aside, i);
    setLength(net, job, aside, i);
  }
  for (let row = 1; row <= rows; row++) {
    sumRow(net, row);
    setEnds(net, job, row);
  }
  return net;
};
/** Sites that findings may still need. */
const SPARE = 16;

/** Counter readings of run r, reduced, less those set aside. */
export const setCounter = (net: Net, job: Job, aside: Aside, r: number): void => {
  const { from, to } = job.o.runs[r - 1];
  const row = net.layout.counter[r];
  net.from[row] = from === undefined || aside.from.has(r) ? Number.NaN : from + job.corrections.from[r];
  net.to[row] = to === undefined || aside.to.has(r) ? Number.NaN : to + job.corrections.to[r];
};

/** The weighted mean of the soundings after run r. */
export const setSoundings = (net: Net, job: Job, aside: Aside, r: number): void => {
  const { soundings, runOfSounding } = job.o;
  let weight = 0;
  let weighted = 0;
  for (let i = 0; i < soundings.length; i++) {
    if (runOfSounding[i] !== r || aside.soundings.has(i)) continue;
    const one = 1 / soundings[i].sd ** 2;
    weight += one;
    weighted += one * (soundings[i].depth + job.corrections.sounding[i]);
  }
  const row = net.layout.counter[r + 1];
  net.sounding[row] = weight > 0 ? weighted / weight : Number.NaN;
  net.soundingVariance[row] = weight > 0 ? 1 / weight : Number.NaN;
};

const gapHasSite = ({ o }: Job, aside: Aside, i: number): boolean => {
  const { topBreak, loss } = o.pieces[i];
  return (
    aside.gaps.has(i) ||
    topBreak === 'unsure' ||
    topBreak === 'ground' ||
    (topBreak === 'loss' && loss === undefined)
  );
};

const lengthHasSite = ({ lengths: l }: Job, aside: Aside, i: number): boolean =>
  aside.lengths.has(i) || Number.isNaN(l.value[i]) || !Number.isNaN(l.second[i]);

const siteOf = (net: Net, part: number): number => {
  const had = net.partSite[part];
  if (had >= 0) return had;
  net.partSite[part] = net.siteCount;
  return net.siteCount++;
};

const given = (
  net: Net,
  part: number,
  mean: number,
  variance: number,
  column = -1,
  coefficient = 0,
): void => {
  net.partSite[part] = -1;
  net.partMean[part] = mean;
  net.partVariance[part] = variance;
  net.partGlobal[part] = column;
  net.partCoefficient[part] = coefficient;
};

/** The gap above piece i, by its class. */
export const setGap = (net: Net, job: Job, aside: Aside, i: number): void => {
  const { a, t } = job;
  const piece = job.o.pieces[i];
  const part = 2 * i;
  const open = (level: number, mean: number, rare = t.rareGap, rareMean = t.rareGapMean): void =>
    startSite(net.sites, siteOf(net, part), level, mean, rare, rareMean);
  if (aside.gaps.has(i)) open(-1, t.freeGapMean, 0, 1);
  else if (piece.topBreak === 'unsure') open(Global.unsure, a.unsureGapMean);
  else if (piece.topBreak === 'ground') open(net.unknowns.ground, a.groundGapMean);
  else if (piece.topBreak === 'handling') given(net, part, 0, CLOSED);
  else if (piece.topBreak === 'sawn')
    given(net, part, piece.kerf ?? a.kerf, (piece.kerf === undefined ? a.kerfSd : a.givenKerfSd) ** 2);
  else if (piece.topBreak === 'fits') given(net, part, 0, fitVariance(a, t), Global.fit, 1);
  else if (piece.loss === undefined) open(Global.unsure, t.lossInUnsureGaps * a.unsureGapMean);
  else given(net, part, piece.loss, (a.lossSd + a.lossShareSd * piece.loss) ** 2, Global.loss, piece.loss);
};

const fitVariance = (a: DepthAssumptions, t: Tolerances): number =>
  Math.max(1e-12, a.fitGapMax ** 2 / 12 - (t.fitMeanShare * a.fitGapMax) ** 2);

/** The length of piece i. */
export const setLength = (net: Net, job: Job, aside: Aside, i: number): void => {
  const { t, lengths: l } = job;
  const part = 2 * i + 1;
  const value = l.value[i];
  const second = l.second[i];
  if (aside.lengths.has(i) || Number.isNaN(value))
    startSite(net.sites, siteOf(net, part), -1, t.unknownLengthMean, 0, 1);
  else if (!Number.isNaN(second)) startTwin(net.sites, siteOf(net, part), value, second, l.variance[i]);
  else {
    const tape = l.tape[i];
    given(net, part, value, l.variance[i], tape < 0 ? -1 : net.unknowns.tapes[tape], tape < 0 ? 0 : value);
  }
};

/** What stands between the core and the hole's bottom at the end of a row, and the fill on its way there. */
const setEnds = (net: Net, { o, a, t }: Job, row: number): void => {
  const { layout, sites, rows } = net;
  const r = layout.run[row];
  const n = o.runs.length;
  const isEmpty = (run: number): boolean => run > n || o.first[run] === o.first[run + 1];
  if (layout.side[row] < 0) startSite(sites, row - 1, -1, UNTOLD, 0, 1);
  else if (layout.side[row] > 0) {
    if (isEmpty(r)) startSite(sites, row - 1, -1, t.emptyStubMean, 0, 1);
    else {
      const mean = o.runs[r - 1].catcherHeight ?? a.stubMean;
      startSite(sites, row - 1, Global.stub, Math.max(LEAST_STUB, mean), t.rareStub, t.rareStubMean);
    }
  }
  if (layout.steps[row] === 0) return;
  const afterEmpty = r > 1 && isEmpty(r - 1);
  const rare = afterEmpty ? t.rareFillAfterEmpty : t.rareFill;
  const rareMean = afterEmpty ? t.rareFillAfterEmptyMean : t.rareFillMean;
  startSite(sites, rows + row - 1, Global.fill, a.fillMean, rare, rareMean);
};
/** Mean of the room left in a barrel: so wide that it says nothing but "not less than none". Metres. */
const UNTOLD = 20;
const LEAST_STUB = 0.005;

/** Sums the parts of a row that have no site, and strings those that have one. */
export const sumRow = (net: Net, row: number): void => {
  const { layout, slot, partSite, nextSite } = net;
  const width = net.unknowns.wayColumns.length;
  const from = layout.part[row];
  const end = layout.part[row + 1];
  let mean = 0;
  let variance = 0;
  let biased = 0;
  let last = -1;
  net.rowCoefficient.fill(0, row * width, (row + 1) * width);
  net.firstSite[row] = -1;
  for (let part = from; part < end; part++) {
    if (part % 2 === 1) {
      biased += net.biased[part >> 1];
      // both lengths in this row
      if (part - 2 >= from) variance += 2 * net.joint[part >> 1];
    }
    const site = partSite[part];
    if (site >= 0) {
      if (last < 0) net.firstSite[row] = site;
      else nextSite[last] = site;
      nextSite[site] = -1;
      last = site;
      continue;
    }
    mean += net.partMean[part];
    variance += net.partVariance[part];
    const column = net.partGlobal[part];
    if (column >= 0) net.rowCoefficient[row * width + slot[column]] += net.partCoefficient[part];
  }
  net.rowMean[row] = mean;
  net.rowVariance[row] = from === end ? STILL : variance + biased * biased * net.runBiasVariance;
};
