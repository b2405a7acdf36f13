import type { Chain } from './chain.ts';
import type { Job } from './model.ts';
import type { Opening } from './net.ts';
import { SAME_LENGTH, slipRates, slipsOf } from './slips.ts';
import type { Finding, Slip } from './solution.ts';
import { stretch } from './stretch.ts';
import { bestOf, evidenceOf, LOOSE, type Opened, open, REACH } from './window.ts';

/** A finding with what the adjustment leaves out because of it: the opening's place, and the piece if it is one. */
export interface Explained {
  readonly finding: Finding;
  readonly opening: Opening;
  /** Run of the opening's row, 1..n+1. */
  readonly run: number;
  readonly piece?: number;
  readonly sounding?: number;
  /** Cable check, or zero whose height was measured. */
  readonly check?: number;
  readonly height?: number;
  /** Piece (id) and the run (id) that it belongs to. */
  readonly moved?: readonly [string, string];
}

interface Candidate {
  readonly slip: Slip;
  readonly opened: Opened;
  /** Relative weight, log. */
  readonly weight: number;
  readonly what: Finding['what'];
  readonly which: string;
  readonly field: Finding['field'];
  readonly size: number;
  readonly suggested?: number;
  readonly piece?: number;
  readonly sounding?: number;
  readonly check?: number;
  readonly height?: number;
}

/** 5 % false alarm (two-sided) and 80 % power: 1.960 + 0.842 standard deviations (W. Baarda 1968). */
const DETECTABLE = 2.8016;
/** A slip is named when it is at least this probable, all slips of the place together; a false alarm is one look. */
const BELIEVED = 0.3;
/** Nats that a slip must gain before all slips are weighed against each other. */
const WORTH = 4.2;
/** An opening that gains less at its best adds nothing to the sum. */
const HOPELESS = 1;
/** Nats below which a slip adds nothing to a sum. */
const NOTHING = 8;
/** Runs on either side for that first look, and runs above in which ice may be missing that is felt only here. */
const NEAR = 2;
const ABOVE = 3;
/** Sizes of ice that nobody logged: lost ice is centimetres, a piece decimetres. Common practice, no source. */
const LOST_MEAN = 0.06;
const PIECE_MEAN = 0.4;
const PIECE_SD = 0.25;
const LEAST_PIECE = 0.02;

const logNormal = (x: number, mean: number, variance: number): number =>
  -0.5 * ((x - mean) ** 2 / variance + Math.log(2 * Math.PI * variance));

const logSum = (logs: readonly number[]): number => {
  const top = Math.max(...logs);
  if (top === Number.NEGATIVE_INFINITY) return top;
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - top);
  return top + Math.log(sum);
};

/** log evidence with the offset at exactly b, from the evidence with it free: posterior over prior at b. */
const evidenceAt = (o: Opened, b: number): number =>
  o.logEvidence + logNormal(b, o.mean, o.sd ** 2) - logNormal(b, 0, 1 / LOOSE);
/** The same with the offset normal about `mean`. */
const evidenceAbout = (o: Opened, mean: number, variance: number): number =>
  o.logEvidence + logNormal(o.mean, mean, variance + o.sd ** 2) - logNormal(o.mean, 0, 1 / LOOSE);

/** What the best value of the offset gains over none. */
const gainOf = (o: Opened, none: number): number =>
  o.sound ? bestOf(o.logEvidence, o.mean, o.sd ** 2) - none : Number.NEGATIVE_INFINITY;

/**
 * The slip that best explains what happens around run `centre`, if there is one: every reading of the run and of its
 * neighbours is set free in turn, and the evidence of its likely slips is held against that of none.
 */
export const explain = (chain: Chain, job: Job, suspect: Opening): Explained | undefined => {
  const centre = suspect.row;
  // at its best a slip of the suspected reading must pay for its rarity; most suspects end here
  const quick = stretch(chain, centre, NEAR);
  const before = evidenceOf(quick);
  if (before.sound && !(gainOf(open(quick, suspect, before.logEvidence + WORTH), before.logEvidence) > WORTH))
    return undefined;
  const build = stretch(chain, centre, REACH);
  const { logEvidence: none, sound } = evidenceOf(build);
  if (!sound) return undefined;
  const candidates: Candidate[] = [];
  const free = (opening: Opening, slips: (opened: Opened) => Candidate[]): number => {
    const opened = open(build, opening, none + HOPELESS);
    // a zero that moved bends all below: it must gain by having moved, not because the stand-ins settled elsewhere
    const bar = opening.kind === 'zero' ? Math.max(none, evidenceAt(opened, 0)) : none;
    const gain = gainOf(opened, bar);
    if (gain > HOPELESS) candidates.push(...slips(opened));
    return gain;
  };
  const { net } = chain;
  const { layout } = net;
  const last = layout.run[net.rows];
  const run = layout.run[centre];
  const high = layout.last[Math.min(last, run + 1)];
  for (let row = layout.counter[Math.max(1, run - 1)]; row <= high; row++) {
    const start = Number.isNaN(net.from[row])
      ? Number.POSITIVE_INFINITY
      : free({ kind: 'from', row }, (opened) => ofCounter(opened, job, chain, 'from'));
    if (!Number.isNaN(net.to[row]))
      free({ kind: 'to', row }, (opened) => ofCounter(opened, job, chain, 'to'));
    if (!Number.isNaN(net.sounding[row]))
      free({ kind: 'sounding', row }, (opened) => ofSounding(opened, job, chain));
    // a zero that was moved is first felt at the start of a run
    if (start > HOPELESS && mayMoveZero(chain, row))
      free({ kind: 'zero', row }, (opened) => ofZero(opened, job, chain));
  }
  // a core that is too short is felt at the next break that can give, but hardly at the start of a run
  const from = layout.counter[Math.max(1, run - (suspect.kind === 'from' ? 1 : ABOVE))];
  for (let row = from; row <= high; row++)
    if (layout.part[row + 1] > layout.part[row])
      free({ kind: 'way', row }, (opened) => ofWay(opened, job, chain));
  if (candidates.length === 0) return undefined;
  // the reading first (all its slips together), then its slip
  const readings = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const key = `${candidate.what} ${candidate.which} ${candidate.field}`;
    const list = readings.get(key);
    if (list === undefined) readings.set(key, [candidate]);
    else list.push(candidate);
  }
  const all = logSum(candidates.map((candidate) => candidate.weight));
  if (!(1 / (1 + Math.exp(none - all)) > BELIEVED)) return undefined;
  let best: Candidate | undefined;
  let bestSum = Number.NEGATIVE_INFINITY;
  for (const list of readings.values()) {
    const sum = logSum(list.map((candidate) => candidate.weight));
    if (sum <= bestSum) continue;
    bestSum = sum;
    best = list.reduce((a, b) => (b.weight > a.weight ? b : a));
  }
  if (best === undefined) return undefined;
  const { what, which, field, slip, weight, size, suggested, opened } = best;
  const { piece, sounding, height } = best;
  return {
    opening: opened.opening,
    run: layout.run[opened.opening.row],
    ...(piece === undefined ? {} : { piece }),
    ...(sounding === undefined ? {} : { sounding }),
    ...(height === undefined ? {} : { height }),
    finding: {
      what,
      which,
      field,
      size,
      likely: slip,
      probability: 1 / (1 + Math.exp(none - weight)),
      detectable: detectable(opened),
      ...(suggested === undefined ? {} : { suggested }),
    },
  };
};

/** Whether the zero may have moved at this row unknown to the net. */
const mayMoveZero = ({ net }: Chain, row: number): boolean => {
  const run = net.layout.run[row];
  return (
    run > 1 && run < net.layout.run[net.rows] && !net.unknowns.movedZeros.some((moved) => moved.run === run)
  );
};

const tidy = (value: number): number => Math.round(value * 1e6) / 1e6;

/** Slips of one reading whose offset is `sign` times the opening's. */
const ofReading = (
  opened: Opened,
  reading: number,
  decimals: number,
  least: number,
  sign: 1 | -1,
  at: Pick<Candidate, 'what' | 'which' | 'field' | 'piece' | 'sounding'>,
): Candidate[] => {
  const size = sign * opened.mean;
  const unnamed = Math.log(slipRates['no known slip']) + evidenceAbout(opened, 0, 1);
  const out: Candidate[] = [{ ...at, opened, slip: 'no known slip', size, weight: unnamed }];
  for (const possible of slipsOf(reading, decimals, least)) {
    const weight = Math.log(possible.rate) + evidenceAt(opened, sign * possible.size);
    // far less probable than that no slip is known: it would add nothing
    if (weight > unnamed - NOTHING)
      out.push({
        ...at,
        opened,
        slip: possible.slip,
        size,
        weight,
        suggested: tidy(reading - possible.size),
      });
  }
  return out;
};

const ofCounter = (opened: Opened, { o }: Job, { net }: Chain, field: 'from' | 'to'): Candidate[] => {
  const run = o.runs[net.layout.run[opened.opening.row] - 1];
  return ofReading(opened, run[field] as number, 2, Number.NEGATIVE_INFINITY, 1, {
    what: 'run',
    which: run.id,
    field,
  });
};

const ofSounding = (opened: Opened, { o }: Job, { net }: Chain): Candidate[] => {
  const out: Candidate[] = [];
  const run = net.layout.run[opened.opening.row];
  o.soundings.forEach((sounding, i) => {
    if (o.runOfSounding[i] + 1 !== run) return;
    const at = { what: 'sounding', which: sounding.id, field: 'depth', sounding: i } as const;
    out.push(...ofReading(opened, sounding.depth, 2, 0, 1, at));
  });
  return out;
};

const ofZero = (opened: Opened, { o }: Job, { net }: Chain): Candidate[] => {
  const run = o.runs[net.layout.run[opened.opening.row] - 1];
  const likely = [-1, 1].map((b) => evidenceAt(opened, b) + Math.log(0.25));
  const weight =
    Math.log(slipRates['zero changed']) + logSum([...likely, evidenceAbout(opened, 0, 1) + Math.log(0.5)]);
  const { zeros = [] } = o.readings;
  // a zero that was measured anew at this very run: its height is wrong rather than that it moved again
  const height = zeros.findIndex((zero, j) => j > 0 && zero.fromRun === run.id);
  if (height > 0)
    return [
      {
        opened,
        what: 'zero check',
        which: zeros[height].id,
        field: 'height',
        slip: 'zero changed',
        size: -opened.mean,
        suggested: tidy(zeros[height].height + opened.mean),
        height,
        weight,
      },
    ];
  return [
    { opened, what: 'run', which: run.id, field: 'from', slip: 'zero changed', size: opened.mean, weight },
  ];
};

/** A piece's length as it was written. */
export const writtenLength = ({ lengths: l }: Job, i: number): number => l.value[i] / l.reduction[i];

const ofWay = (opened: Opened, job: Job, chain: Chain): Candidate[] => {
  const { net } = chain;
  const { layout, partSite } = net;
  const { row } = opened.opening;
  const { pieces } = job.o;
  const out: Candidate[] = [];
  const from = layout.part[row];
  const end = layout.part[row + 1];
  let openBreak = -1;
  let breaks = 0;
  for (let part = from; part < end; part++) {
    const i = part >> 1;
    const piece = pieces[i];
    if (part % 2 === 0) {
      breaks++;
      if (openBreak < 0 || (piece.topBreak === 'unsure' && pieces[openBreak].topBreak !== 'unsure'))
        openBreak = i;
      if (piece.topBreak === 'loss' && piece.loss !== undefined && partSite[part] < 0)
        out.push(
          ...ofReading(opened, piece.loss, 3, 0, -1, {
            what: 'piece',
            which: piece.id,
            field: 'loss',
            piece: i,
          }).filter((candidate) => candidate.slip !== 'swapped digits'),
        );
      continue;
    }
    // a length from mass has no digits to exchange
    if (partSite[part] >= 0 || job.lengths.tape[i] < 0) continue;
    const length = writtenLength(job, i);
    const at = { what: 'piece', which: piece.id, field: 'length', piece: i } as const;
    out.push(...ofReading(opened, tidy(length), 3, 0.005, -1, at));
    const twin = i > 0 ? pieces[i - 1].length : undefined;
    const same = twin !== undefined && Math.abs(twin - length) < SAME_LENGTH;
    const whole = length + Math.min(gapOf(net, i), 0.02);
    out.push({
      ...at,
      opened,
      slip: 'doubled piece',
      size: length,
      weight:
        Math.log(slipRates['doubled piece'] * (same ? 5 : 0.02)) + evidenceAbout(opened, -whole, 0.005 ** 2),
    });
  }
  if (openBreak < 0) return out;
  const piece = pieces[openBreak];
  const free = partSite[2 * openBreak];
  if (opened.mean > LEAST_PIECE && (free < 0 || net.sites.level[free] >= 0)) {
    const at = {
      opened,
      what: 'piece',
      which: piece.id,
      field: 'topBreak',
      size: -opened.mean,
      piece: openBreak,
    } as const;
    const lost = -opened.mean / LOST_MEAN - Math.log(LOST_MEAN) - logNormal(opened.mean, 0, 1 / LOOSE);
    out.push({
      ...at,
      slip: 'lost ice not logged',
      weight: Math.log(slipRates['lost ice not logged'] * breaks) + opened.logEvidence + lost,
    });
    out.push({
      ...at,
      slip: 'missing piece',
      weight: Math.log(slipRates['missing piece']) + evidenceAbout(opened, PIECE_MEAN, PIECE_SD ** 2),
    });
  }
  return out;
};

/** Roughly, the gap above piece i. */
const gapOf = (net: Chain['net'], i: number): number => {
  const site = net.partSite[2 * i];
  return site >= 0 ? Math.max(0, net.sites.a[site]) : net.partMean[2 * i];
};

/**
 * Slip of a cable check, if there is one: what it says against what all else says of the cable's scale.
 *
 * @param off check less all else, metres; sd of that
 */
export const explainCheck = (job: Job, check: number, off: number, sd: number): Explained | undefined => {
  const made = (job.o.readings.cableChecks ?? [])[check];
  const none = logNormal(off, 0, sd * sd);
  const opened: Opened = {
    opening: { kind: 'to', row: 0 },
    mean: off / (1 + LOOSE * sd * sd),
    sd: sd / Math.sqrt(1 + LOOSE * sd * sd),
    logEvidence: logNormal(off, 0, 1 / LOOSE + sd * sd),
    sound: true,
  };
  const at = { what: 'cable check', which: made.id, field: 'counter', check } as const;
  const candidates = ofReading(opened, made.counter, 2, 0, 1, at);
  const all = logSum(candidates.map((candidate) => candidate.weight));
  if (!(1 / (1 + Math.exp(none - all)) > BELIEVED)) return undefined;
  const best = candidates.reduce((a, b) => (b.weight > a.weight ? b : a));
  return {
    opening: opened.opening,
    run: 0,
    check,
    finding: {
      what: 'cable check',
      which: made.id,
      field: 'counter',
      size: off,
      likely: best.slip,
      probability: 1 / (1 + Math.exp(none - best.weight)),
      detectable: DETECTABLE * sd,
      ...(best.suggested === undefined ? {} : { suggested: best.suggested }),
    },
  };
};

/** Slip of a single reading, looked at again once the rest is clean; what was found before holds if it still fits. */
export const nameOf = (
  opened: Opened,
  reading: number,
  before: Finding,
): Pick<Finding, 'likely' | 'probability' | 'detectable'> & { readonly suggested?: number } => {
  const least = before.what === 'sounding' ? 0 : Number.NEGATIVE_INFINITY;
  const candidates = ofReading(opened, reading, 2, least, 1, before);
  const best = candidates.reduce((a, b) => (b.weight > a.weight ? b : a));
  const none = evidenceAt(opened, 0);
  return {
    likely: best.slip,
    probability: best.slip === before.likely ? before.probability : 1 / (1 + Math.exp(none - best.weight)),
    detectable: detectable(opened),
    ...(best.suggested === undefined ? {} : { suggested: best.suggested }),
  };
};

const detectable = (opened: Opened): number =>
  DETECTABLE / Math.sqrt(Math.max(1e-12, 1 / opened.sd ** 2 - LOOSE));
