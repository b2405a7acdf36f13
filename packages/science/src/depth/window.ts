// Longer than most: assembly, elimination and refresh share two dozen work columns, and run some thousand times a
// hole; taken apart they would pass all of these from hand to hand.

import type { Opening } from './net.ts';
import { question, updateSite } from './sites.ts';
import { FARTHEST, keep, READINGS, restart, rewind, type Stretch } from './stretch.ts';

/** Runs on either side that are solved again when one place is looked at. */
export const REACH = FARTHEST;

/** The free offset's prior: normal about 0, so wide (50 m) that it pulls no slip back; its precision. */
export const LOOSE = 1 / 50 ** 2;

/** What a free offset at one place would be, all other readings given. */
export interface Opened {
  readonly opening: Opening;
  readonly mean: number;
  readonly sd: number;
  /** log evidence with the offset free (prior N(0, 1 m)). */
  readonly logEvidence: number;
  /** False where the stand-ins swing between two stories: the evidence then means nothing. */
  readonly sound: boolean;
}

const SWEEPS = 14;
/** Where the stand-ins swing: all from their start again, with shorter strides and more time. */
const PATIENT = 40;
const QUICKLY = 0.9;
const SLOWLY = 0.4;
/** As far as a stub or a way may still move when the sweeps run out, in standard deviations. */
const NEARLY_STILL = 0.3;
/** Stops when no stub and no way moves by more than this share of its standard deviation. */
const STILL_ENOUGH = 0.1;

/** Work columns, long enough for the longest stretch (its reach on both sides, the centre, the start). */
const ROWS = 2 * REACH + 2;
const diagonal = new Float64Array(3 * ROWS);
const inverse = new Float64Array(3 * ROWS);
const cov = new Float64Array(3 * ROWS);
const cross = new Float64Array(4 * ROWS);
const couple = new Float64Array(2 * ROWS);
/** Right-hand side, column of the opening, and the estimate: B and D of every run. */
const right = new Float64Array(2 * ROWS);
const column = new Float64Array(2 * ROWS);
const estimate = new Float64Array(2 * ROWS);
/** The same of the scale's drift U, as in `Chain`. */
const driftDiagonal = new Float64Array(2 * ROWS);
const driftInverse = new Float64Array(3 * ROWS);
const driftCouple = new Float64Array(2 * ROWS);
const driftRight = new Float64Array(ROWS);
const driftColumn = new Float64Array(ROWS);
const driftEstimate = new Float64Array(ROWS);
/** Covariance of U of a row with D, its variance, and its covariance with D of the row above. */
const driftCov = new Float64Array(3 * ROWS);
/** Share of from, to, sounding, way of each run that the opening shifts. */
const shifted = new Float64Array(4 * ROWS);
/** Way of each run: miss and variance with the present sites. */
const miss = new Float64Array(ROWS);
const spread = new Float64Array(ROWS);
/** The opening: mean, variance; and the largest squared move that sites saw in the last sweep, in variances. */
const found = { mean: 0, variance: 0, move: 0, hopeless: false };

/**
 * log evidence of the stretch as it is; up to a constant that all openings of one stretch share. `sound` as in
 * `Opened`.
 */
export const evidenceOf = (t: Stretch): { readonly logEvidence: number; readonly sound: boolean } => {
  rewind(t);
  const logEvidence = settleDown(t, false, SWEEPS, nothing);
  if (found.move < NEARLY_STILL ** 2) {
    keep(t);
    return { logEvidence, sound: true };
  }
  restart(t, 1, t.rows, SLOWLY);
  return { logEvidence: settleDown(t, false, PATIENT, nothing), sound: found.move < NEARLY_STILL ** 2 };
};

/** Evidence with the offset at its best value. */
export const bestOf = (logEvidence: number, mean: number, variance: number): number =>
  logEvidence - 0.5 * Math.log(variance * LOOSE) + 0.5 * LOOSE * mean * mean;

/**
 * The stretch with one offset free.
 *
 * @param least evidence, at the best offset, that is of interest: an opening well below it is left half done
 */
export const open = (t: Stretch, opening: Opening, least = Number.NEGATIVE_INFINITY): Opened => {
  rewind(t);
  const run = Math.max(1, opening.row - t.above);
  // what the sites next to the reading took on because of it they must not keep once it is free
  restart(t, run - 1, run + 1, QUICKLY);
  shift(t, opening);
  let logEvidence = settleDown(t, true, SWEEPS, least - UNSETTLED);
  if (!(found.move < NEARLY_STILL ** 2) && !found.hopeless) {
    restart(t, 1, t.rows, SLOWLY);
    logEvidence = settleDown(t, true, PATIENT, least - UNSETTLED);
  }
  const sound = found.move < NEARLY_STILL ** 2;
  return { opening, mean: found.mean, sd: Math.sqrt(found.variance), logEvidence, sound };
};

const shift = (t: Stretch, { kind, row }: Opening): void => {
  shifted.fill(0);
  const here = Math.max(1, row - t.above);
  const last = kind === 'zero' ? t.rows : here;
  for (let r = here; r <= last; r++) {
    if (kind === 'from' || kind === 'zero') shifted[4 * r] = 1;
    if (kind === 'to' || kind === 'zero') shifted[4 * r + 1] = 1;
    if (kind === 'sounding') shifted[4 * r + 2] = 1;
    if (kind === 'way') shifted[4 * r + 3] = 1;
  }
};

const settleDown = (t: Stretch, free: boolean, most: number, least: number): number => {
  estimate.fill(0);
  driftEstimate.fill(0);
  found.hopeless = false;
  let logEvidence = 0;
  for (let sweeps = 0; sweeps < most; sweeps++) {
    logEvidence = solve(t, free) + refresh(t, free);
    if (sweeps > 0 && found.move < STILL_ENOUGH ** 2) break;
    if (
      free &&
      sweeps >= EARLIEST &&
      found.move < NEARLY_STILL ** 2 &&
      bestOf(logEvidence, found.mean, found.variance) < least
    ) {
      found.hopeless = true;
      break;
    }
  }
  return logEvidence;
};
const nothing = Number.NEGATIVE_INFINITY;
/** What the evidence may still gain, in nats, after this many sweeps. */
const UNSETTLED = 3;
const EARLIEST = 2;

/** One pass down and up with the sites as they are. Returns log mass. */
const solve = (t: Stretch, free: boolean): number => {
  const { rows: runs, readings, sites, firstPart, wayMiss, wayVariance } = t;
  diagonal.fill(0);
  right.fill(0);
  column.fill(0);
  driftDiagonal.fill(0);
  driftRight.fill(0);
  driftColumn.fill(0);
  const { start } = t;
  diagonal[0] = start[0];
  diagonal[1] = start[1];
  diagonal[2] = start[2];
  driftDiagonal[0] = start[4];
  driftDiagonal[1] = start[5];
  let mass = 0;
  // the opening's own weight (its prior's at first) and push
  let own = LOOSE;
  let push = 0;
  for (let r = 1; r <= runs; r++) {
    const d = 3 * r;
    const here = 2 * r;
    let mean = wayMiss[r];
    let variance = wayVariance[r];
    // logarithms are summed as that of a product, row by row
    let product = 1;
    for (let i = firstPart[r]; i < firstPart[r + 1]; i++) {
      mean += sites.a[i];
      variance += sites.v[i];
      mass += 0.5 * sites.g[i] * sites.a[i];
      product *= sites.v[i];
    }
    miss[r] = mean;
    spread[r] = variance;
    const w = 1 / variance;
    diagonal[d] += w;
    diagonal[d - 3] += w;
    couple[here] = -w;
    right[here] += w * mean;
    right[here - 2] -= w * mean;
    mass -= 0.5 * w * mean * mean;
    product *= w;
    const onWay = free ? shifted[4 * r + 3] : 0;
    if (onWay !== 0) {
      column[here] -= w;
      column[here - 2] += w;
      own += w;
      push -= w * mean;
    }
    const p = sites.p[r - 1];
    const at = r * READINGS;
    const scale = readings[at + 12];
    const stub = readings[at + 7];
    const apart = readings[at + 9];
    const apartMiss = readings[at + 10];
    const pull = readings[at + 8] * (sites.g[r - 1] - p * stub) + apart * apartMiss;
    diagonal[d] += p + apart;
    diagonal[d + 1] -= p + apart;
    diagonal[d + 2] += p + apart;
    right[here] -= pull;
    right[here + 1] += pull;
    mass += stub * (sites.g[r - 1] - 0.5 * p * stub) - 0.5 * apart * apartMiss * apartMiss;
    const tied = readings[at + 15];
    const step = tied * readings[at + 16];
    driftDiagonal[here + 1] += tied;
    driftDiagonal[here - 1] += tied;
    driftCouple[here] = 0;
    driftCouple[here + 1] = -tied;
    driftRight[r] += step;
    driftRight[r - 1] -= step;
    const still = readings[at + 11];
    diagonal[d - 1] += still;
    diagonal[d + 2] += still;
    couple[here + 1] = -still;
    const w0 = readings[at + 3];
    const w1 = readings[at + 4];
    const w2 = readings[at + 5];
    const w3 = readings[at + 6];
    const seen = w0 + w3;
    if (seen === 0 && w2 === 0) {
      mass += 0.5 * Math.log(product);
      continue;
    }
    const e0 = readings[at];
    const e1 = readings[at + 1];
    const e2 = readings[at + 2];
    const site = runs + r - 1;
    const loose = seen > 0 ? 1 / (sites.p[site] + seen) : 0;
    const k0 = sites.g[site] - w0 * e0 - w1 * e1 - w3 * e2;
    const fill = loose * k0;
    mass -= 0.5 * (w0 * e0 * e0 + 2 * w1 * e0 * e1 + w2 * e1 * e1 + w3 * e2 * e2 - fill * k0);
    mass += 0.5 * Math.log(seen > 0 ? product * loose : product);
    // weights of the three readings, fill integrated out
    const m00 = w0 - loose * w0 * w0;
    const m01 = w1 - loose * w0 * w1;
    const m02 = -loose * w0 * w3;
    const m11 = w2 - loose * w1 * w1;
    const m12 = -loose * w1 * w3;
    const m22 = w3 - loose * w3 * w3;
    const x0 = w0 * e0 + w1 * e1 + fill * w0;
    const x1 = w1 * e0 + w2 * e1 + fill * w1;
    const x2 = w3 * e2 + fill * w3;
    const u0 = m00 * scale + m02;
    const u1 = m01 * scale + m12;
    diagonal[d - 1] += scale * u0 + m02 * scale + m22;
    diagonal[d + 2] += scale * scale * m11;
    couple[here + 1] = scale * u1;
    right[here - 1] += scale * x0 + x2;
    right[here + 1] += scale * x1;
    const above = readings[at + 13];
    const below = readings[at + 14];
    const c0 = m00 * above + m01 * below;
    const c1 = m01 * above + m11 * below;
    driftDiagonal[here] += scale * c1;
    driftDiagonal[here + 1] += above * c0 + below * c1;
    driftCouple[here] = scale * c0 + m02 * above + m12 * below;
    driftRight[r] += above * x0 + below * x1;
    if (!free) continue;
    const t0 = shifted[4 * r];
    const t1 = shifted[4 * r + 1];
    const t2 = shifted[4 * r + 2];
    if (t0 === 0 && t1 === 0 && t2 === 0) continue;
    const s0 = m00 * t0 + m01 * t1 + m02 * t2;
    const s1 = m01 * t0 + m11 * t1 + m12 * t2;
    const s2 = m02 * t0 + m12 * t1 + m22 * t2;
    column[here - 1] += scale * s0 + s2;
    column[here + 1] += scale * s1;
    driftColumn[r] += above * s0 + below * s1;
    own += s0 * t0 + s1 * t1 + s2 * t2;
    push += t0 * x0 + t1 * x1 + t2 * x2;
  }
  // as in eliminate.ts, with one column
  let pbb = 0;
  let pbd = 0;
  let pdd = 0;
  let pbu = 0;
  let pdu = 0;
  let puu = 0;
  for (let r = 0; r <= runs; r++) {
    const d = 3 * r;
    const here = 2 * r;
    let bb = diagonal[d];
    let bd = diagonal[d + 1];
    let dd = diagonal[d + 2];
    let bu = r === 0 ? start[3] : 0;
    let du = driftDiagonal[here];
    let uu = driftDiagonal[here + 1];
    let hb = right[here];
    let hd = right[here + 1];
    let hu = driftRight[r];
    if (r > 0) {
      const cb = couple[here];
      const cd = couple[here + 1];
      const cx = driftCouple[here];
      const cu = driftCouple[here + 1];
      const jbb = cb * pbb;
      const jdb = cb * pbd;
      const jub = cb * pbu;
      const jbd = cd * pbd;
      const jdd = cd * pdd;
      const jud = cd * pdu;
      const jbu = cx * pbd + cu * pbu;
      const jdu = cx * pdd + cu * pdu;
      const juu = cx * pdu + cu * puu;
      bb -= cb * jbb;
      bd -= cb * jbd;
      dd -= cd * jdd;
      bu -= cb * jbu;
      du -= cd * jdu;
      uu -= cx * jdu + cu * juu;
      const b = right[here - 2];
      const e = right[here - 1];
      const u = driftRight[r - 1];
      right[here] = hb -= jbb * b + jdb * e + jub * u;
      right[here + 1] = hd -= jbd * b + jdd * e + jud * u;
      driftRight[r] = hu -= jbu * b + jdu * e + juu * u;
      if (free) {
        const y = column[here - 2];
        const z = column[here - 1];
        const x = driftColumn[r - 1];
        column[here] -= jbb * y + jdb * z + jub * x;
        column[here + 1] -= jbd * y + jdd * z + jud * x;
        driftColumn[r] -= jbu * y + jdu * z + juu * x;
      }
    }
    const rest = 1 / uu;
    const fb = bu * rest;
    const fd = du * rest;
    bb -= bu * fb;
    bd -= bu * fd;
    dd -= du * fd;
    const determinant = bb * dd - bd * bd;
    const part = 1 / determinant;
    pbb = dd * part;
    pbd = -bd * part;
    pdd = bb * part;
    pbu = -(pbb * fb + pbd * fd);
    pdu = -(pbd * fb + pdd * fd);
    puu = rest - fb * pbu - fd * pdu;
    inverse[d] = pbb;
    inverse[d + 1] = pbd;
    inverse[d + 2] = pdd;
    driftInverse[d] = pbu;
    driftInverse[d + 1] = pdu;
    driftInverse[d + 2] = puu;
    const gb = pbb * hb + pbd * hd + pbu * hu;
    const gd = pbd * hb + pdd * hd + pdu * hu;
    const gu = pbu * hb + pdu * hd + puu * hu;
    mass += 0.5 * (gb * hb + gd * hd + gu * hu - Math.log(determinant * uu));
    if (free) {
      const y = column[here];
      const z = column[here + 1];
      const x = driftColumn[r];
      own -= (pbb * y + 2 * (pbd * z + pbu * x)) * y + (pdd * z + 2 * pdu * x) * z + puu * x * x;
      push -= y * gb + z * gd + x * gu;
    }
  }
  if (free) {
    found.variance = 1 / Math.max(own, 1e-12);
    found.mean = push * found.variance;
    mass += 0.5 * (push * found.mean + Math.log(found.variance * LOOSE));
  }
  const offset = free ? found.mean : 0;
  const loose = free ? found.variance : 0;
  let worst = 0;
  let nextMoved = 0;
  let nextPull = 0;
  let vbb = 0;
  let vbd = 0;
  let vdd = 0;
  let vbu = 0;
  let vdu = 0;
  let vuu = 0;
  for (let r = runs; r >= 0; r--) {
    const d = 3 * r;
    const here = 2 * r;
    const ibb = inverse[d];
    const ibd = inverse[d + 1];
    const idd = inverse[d + 2];
    const ibu = driftInverse[d];
    const idu = driftInverse[d + 1];
    const iuu = driftInverse[d + 2];
    let b = right[here];
    let e = right[here + 1];
    let u = driftRight[r];
    let y = column[here];
    let z = column[here + 1];
    let x = driftColumn[r];
    let nbb = ibb;
    let nbd = ibd;
    let ndd = idd;
    let nbu = ibu;
    let ndu = idu;
    let nuu = iuu;
    let wayBelow = 0;
    if (r < runs) {
      const cb = couple[here + 2];
      const cd = couple[here + 3];
      const cx = driftCouple[here + 2];
      const cu = driftCouple[here + 3];
      const ru = driftRight[r + 1];
      const qu = driftColumn[r + 1];
      b -= cb * right[here + 2];
      e -= cd * right[here + 3] + cx * ru;
      u -= cu * ru;
      y -= cb * column[here + 2];
      z -= cd * column[here + 3] + cx * qu;
      x -= cu * qu;
      const jbb = ibb * cb;
      const jdb = ibd * cb;
      const jub = ibu * cb;
      const jbd = ibd * cd;
      const jdd = idd * cd;
      const jud = idu * cd;
      const jbu = ibd * cx + ibu * cu;
      const jdu = idd * cx + idu * cu;
      const juu = idu * cx + iuu * cu;
      const xbb = -(jbb * vbb + jbd * vbd + jbu * vbu);
      const xbd = -(jbb * vbd + jbd * vdd + jbu * vdu);
      const xbu = -(jbb * vbu + jbd * vdu + jbu * vuu);
      const xdb = -(jdb * vbb + jdd * vbd + jdu * vbu);
      const xdd = -(jdb * vbd + jdd * vdd + jdu * vdu);
      const xdu = -(jdb * vbu + jdd * vdu + jdu * vuu);
      const xub = -(jub * vbb + jud * vbd + juu * vbu);
      const xud = -(jub * vbd + jud * vdd + juu * vdu);
      const xuu = -(jub * vbu + jud * vdu + juu * vuu);
      const at = 4 * (r + 1);
      cross[at] = xbb;
      cross[at + 3] = xdd;
      driftCov[3 * r + 5] = xdu;
      wayBelow = vbb - 2 * xbb;
      nbb -= xbb * jbb + xbd * jbd + xbu * jbu;
      nbd -= xbb * jdb + xbd * jdd + xbu * jdu;
      ndd -= xdb * jdb + xdd * jdd + xdu * jdu;
      nbu -= xbb * jub + xbd * jud + xbu * juu;
      ndu -= xdb * jub + xdd * jud + xdu * juu;
      nuu -= xub * jub + xud * jud + xuu * juu;
    }
    cov[d] = vbb = nbb;
    cov[d + 1] = vbd = nbd;
    cov[d + 2] = vdd = ndd;
    vbu = nbu;
    driftCov[d] = vdu = ndu;
    driftCov[d + 1] = vuu = nuu;
    // after this pass: right = solution without the opening, column = what the opening's offset takes from it
    const rb = ibb * b + ibd * e + ibu * u;
    const rd = ibd * b + idd * e + idu * u;
    const ru = ibu * b + idu * e + iuu * u;
    const qb = ibb * y + ibd * z + ibu * x;
    const qd = ibd * y + idd * z + idu * x;
    const qu = ibu * y + idu * z + iuu * x;
    right[here] = rb;
    right[here + 1] = rd;
    column[here] = qb;
    column[here + 1] = qd;
    driftRight[r] = ru;
    driftColumn[r] = qu;
    driftEstimate[r] = ru - qu * offset;
    const atB = rb - qb * offset;
    const atD = rd - qd * offset;
    const movedB = atB - estimate[here];
    const movedD = atD - estimate[here + 1];
    estimate[here] = atB;
    estimate[here + 1] = atD;
    // what sites see of it: D against B, and the way to the next B; D itself may be loose by metres in a deep hole
    const apart = movedD - movedB;
    const pulled = qd - qb;
    worst = Math.max(worst, (apart * apart) / (nbb - 2 * nbd + ndd + pulled * pulled * loose));
    if (r < runs) {
      const way = movedB - nextMoved;
      const bent = qb - nextPull;
      worst = Math.max(worst, (way * way) / (nbb + wayBelow + bent * bent * loose));
    }
    nextMoved = movedB;
    nextPull = qb;
  }
  found.move = worst;
  return mass;
};

/** Every stand-in from its own one-sided term. Returns their part of the log evidence. */
const refresh = (t: Stretch, free: boolean): number => {
  const { rows: runs, readings, sites, firstPart } = t;
  const offset = free ? found.mean : 0;
  const loose = free ? found.variance : 0;
  let evidence = 0;
  question[2] = 0;
  for (let r = 1; r <= runs; r++) {
    const d = 3 * r;
    const here = 2 * r;
    const at = r * READINGS;
    const scale = readings[at + 12];
    const sign = readings[at + 8];
    if (sign !== 0) {
      const pull = column[here + 1] - column[here];
      question[0] = readings[at + 7] + sign * (estimate[here + 1] - estimate[here]);
      question[1] = cov[d] - 2 * cov[d + 1] + cov[d + 2] + pull * pull * loose;
      evidence += updateSite(sites, r - 1, false, true);
    }
    const n0 = readings[at + 3];
    const n1 = readings[at + 4];
    const n2 = readings[at + 6];
    if (n0 + n2 > 0) {
      const site = runs + r - 1;
      const own = 1 / (sites.p[site] + n0 + n2);
      const shiftOf = free ? n0 * shifted[4 * r] + n1 * shifted[4 * r + 1] + n2 * shifted[4 * r + 2] : 0;
      const da = own * (n0 * scale + n2);
      const db = own * n1 * scale;
      const du = own * (n0 * readings[at + 13] + n1 * readings[at + 14]);
      const mean =
        own *
          (sites.g[site] -
            n0 * readings[at] -
            n1 * readings[at + 1] -
            n2 * readings[at + 2] +
            shiftOf * offset) +
        da * estimate[here - 1] +
        db * estimate[here + 1] +
        du * driftEstimate[r];
      const pull = own * shiftOf - da * column[here - 1] - db * column[here + 1] - du * driftColumn[r];
      const variance =
        own +
        da * da * cov[d - 1] +
        db * db * cov[d + 2] +
        du * du * driftCov[d + 1] +
        2 * (da * db * cross[4 * r + 3] + da * du * driftCov[d + 2] + db * du * driftCov[d]) +
        pull * pull * loose;
      question[0] = mean;
      question[1] = variance;
      evidence += updateSite(sites, site, false, true);
    }
    const from = firstPart[r];
    const end = firstPart[r + 1];
    if (from === end) continue;
    const onWay = free ? shifted[4 * r + 3] : 0;
    const left = estimate[here] - estimate[here - 2] - miss[r] - onWay * offset;
    const pull = column[here] - column[here - 2] + onWay;
    const variance = cov[d] + cov[d - 3] - 2 * cross[4 * r] + pull * pull * loose;
    for (let i = from; i < end; i++) {
      const v = sites.v[i];
      const share = v / spread[r];
      question[0] = sites.a[i] + share * left;
      question[1] = share * share * variance + v * (1 - share);
      evidence += updateSite(sites, i, true, true);
    }
  }
  return evidence;
};
