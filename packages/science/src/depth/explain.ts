import type { Chain } from './chain.ts';
import type { Opening } from './net.ts';
import type { Ordered } from './order.ts';
import { SAME_LENGTH, slipRates, slipsOf } from './slips.ts';
import type { Finding, Slip } from './solution.ts';
import { stretch } from './stretch.ts';
import { bestOf, evidenceOf, type Opened, open, REACH } from './window.ts';

/** A finding with what the adjustment leaves out because of it: the opening's place, and the piece if it is one. */
export interface Explained {
  readonly finding: Finding;
  readonly opening: Opening;
  readonly piece?: number;
  readonly sounding?: number;
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
}

/** 5 % false alarm (two-sided) and 80 % power: 1.960 + 0.842 standard deviations (W. Baarda 1968). */
const DETECTABLE = 2.8016;
/** A slip is named when it is at least this probable, all slips of the place together; a false alarm is one look. */
const BELIEVED = 0.3;
/** Nats that a slip must gain before all slips are weighed against each other. */
const WORTH = 4.2;
/** An opening that gains less at its best adds nothing to the sum. */
const HOPELESS = 1;
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
  o.logEvidence + logNormal(b, o.mean, o.sd ** 2) - logNormal(b, 0, 1);
/** The same with the offset normal about `mean`. */
const evidenceAbout = (o: Opened, mean: number, variance: number): number =>
  o.logEvidence + logNormal(o.mean, mean, variance + o.sd ** 2) - logNormal(o.mean, 0, 1);

/** What the best value of the offset gains over none. */
const gainOf = (o: Opened, none: number): number =>
  o.sound ? bestOf(o.logEvidence, o.mean, o.sd ** 2) - none : Number.NEGATIVE_INFINITY;

/**
 * The slip that best explains what happens around run `centre`, if there is one: every reading of the run and of its
 * neighbours is set free in turn, and the evidence of its likely slips is held against that of none.
 */
export const explain = (chain: Chain, o: Ordered, suspect: Opening): Explained | undefined => {
  const centre = suspect.run;
  // at its best a slip of the suspected reading must pay for its rarity; most suspects end here
  const quick = stretch(chain, centre, NEAR);
  const before = evidenceOf(quick);
  if (before.sound && !(gainOf(open(quick, suspect, before.logEvidence + WORTH), before.logEvidence) > WORTH))
    return undefined;
  const build = stretch(chain, centre, REACH);
  const { logEvidence: none, sound } = evidenceOf(build);
  if (!sound) return undefined;
  const candidates: Candidate[] = [];
  const free = (kind: Opening['kind'], run: number, slips: (opened: Opened) => Candidate[]): number => {
    const opened = open(build, { kind, run }, none + HOPELESS);
    const gain = gainOf(opened, none);
    if (gain > HOPELESS) candidates.push(...slips(opened));
    return gain;
  };
  const low = Math.max(1, centre - 1);
  const high = Math.min(chain.net.runs, centre + 1);
  for (let r = low; r <= high; r++) {
    const start = Number.isNaN(chain.net.from[r])
      ? Number.POSITIVE_INFINITY
      : free('from', r, (opened) => ofCounter(opened, o, 'from'));
    if (!Number.isNaN(chain.net.to[r])) free('to', r, (opened) => ofCounter(opened, o, 'to'));
    if (!Number.isNaN(chain.net.sounding[r])) free('sounding', r, (opened) => ofSounding(opened, o));
    // a zero that was moved is first felt at the start of a run
    if (start > HOPELESS && r > 1 && r <= o.runs.length && !chain.net.zeros.includes(r))
      free('zero', r, (opened) => ofZero(opened, o));
  }
  // a core that is too short is felt at the next break that can give, but hardly at the start of a run
  for (let r = Math.max(1, centre - (suspect.kind === 'from' ? 1 : ABOVE)); r <= high; r++) {
    if (chain.net.first[r + 1] > chain.net.first[r]) free('way', r, (opened) => ofWay(opened, o, chain));
  }
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
  const { what, which, field, slip, weight, size, suggested, opened, piece, sounding } = best;
  return {
    opening: opened.opening,
    ...(piece === undefined ? {} : { piece }),
    ...(sounding === undefined ? {} : { sounding }),
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
  const out: Candidate[] = slipsOf(reading, decimals, least).map((possible) => ({
    ...at,
    opened,
    slip: possible.slip,
    size,
    weight: Math.log(possible.rate) + evidenceAt(opened, sign * possible.size),
    suggested: tidy(reading - possible.size),
  }));
  out.push({
    ...at,
    opened,
    slip: 'no known slip',
    size,
    weight: Math.log(slipRates['no known slip']) + opened.logEvidence,
  });
  return out;
};

const ofCounter = (opened: Opened, o: Ordered, field: 'from' | 'to'): Candidate[] => {
  const run = o.runs[opened.opening.run - 1];
  return ofReading(opened, run[field] as number, 2, Number.NEGATIVE_INFINITY, 1, {
    what: 'run',
    which: run.id,
    field,
  });
};

const ofSounding = (opened: Opened, o: Ordered): Candidate[] => {
  const out: Candidate[] = [];
  o.soundings.forEach((sounding, i) => {
    if (o.runOfSounding[i] + 1 !== opened.opening.run) return;
    const at = { what: 'sounding', which: sounding.id, field: 'depth', sounding: i } as const;
    out.push(...ofReading(opened, sounding.depth, 2, 0, 1, at));
  });
  return out;
};

const ofZero = (opened: Opened, o: Ordered): Candidate[] => {
  const run = o.runs[opened.opening.run - 1];
  const rate = slipRates['zero changed'];
  const likely = [-1, 1].map((b) => evidenceAt(opened, b) + Math.log(0.25));
  const weight = Math.log(rate) + logSum([...likely, opened.logEvidence + Math.log(0.5)]);
  return [
    { opened, what: 'run', which: run.id, field: 'from', slip: 'zero changed', size: opened.mean, weight },
  ];
};

const ofWay = (opened: Opened, o: Ordered, chain: Chain): Candidate[] => {
  const r = opened.opening.run;
  const { net } = chain;
  const out: Candidate[] = [];
  let openBreak = net.first[r];
  for (let i = net.first[r]; i < net.first[r + 1]; i++) {
    const piece = o.pieces[i];
    if (piece.topBreak === 'unsure' && o.pieces[openBreak].topBreak !== 'unsure') openBreak = i;
    if (piece.length !== undefined && net.partSite[2 * i + 1] < 0) {
      const at = { what: 'piece', which: piece.id, field: 'length', piece: i } as const;
      out.push(...ofReading(opened, piece.length, 3, 0.005, -1, at));
      const site = net.partSite[2 * i];
      const gap = site >= 0 ? Math.max(0, net.sites.a[site]) : net.partMean[2 * i];
      const twin = i > 0 ? o.pieces[i - 1].length : undefined;
      const same = twin !== undefined && Math.abs(twin - piece.length) < SAME_LENGTH;
      const whole = piece.length + Math.min(gap, 0.02);
      out.push({
        ...at,
        opened,
        slip: 'doubled piece',
        size: piece.length,
        weight:
          Math.log(slipRates['doubled piece'] * (same ? 5 : 0.02)) +
          evidenceAbout(opened, -whole, 0.005 ** 2),
      });
    }
    if (piece.topBreak === 'loss' && piece.loss !== undefined && net.partSite[2 * i] < 0)
      out.push(
        ...ofReading(opened, piece.loss, 3, 0, -1, {
          what: 'piece',
          which: piece.id,
          field: 'loss',
          piece: i,
        }).filter((candidate) => candidate.slip !== 'swapped digits'),
      );
  }
  const piece = o.pieces[openBreak];
  const free = net.partSite[2 * openBreak];
  if (opened.mean > LEAST_PIECE && (free < 0 || net.sites.level[free] >= 0)) {
    const breaks = net.first[r + 1] - net.first[r];
    const at = {
      opened,
      what: 'piece',
      which: piece.id,
      field: 'topBreak',
      size: -opened.mean,
      piece: openBreak,
    } as const;
    const lost = -opened.mean / LOST_MEAN - Math.log(LOST_MEAN) - logNormal(opened.mean, 0, 1);
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
  DETECTABLE / Math.sqrt(Math.max(1e-12, 1 / opened.sd ** 2 - 1));
