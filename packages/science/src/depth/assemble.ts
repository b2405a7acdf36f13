// Longer than most functions here: the normal equations of a row share two dozen numbers; taken apart these would all be arguments.

import type { Chain } from './chain.ts';
import { Global } from './global.ts';
import { STILL } from './net.ts';

/** Sums the parts of every row, with the present sites. */
const sumWays = (chain: Chain): void => {
  const { net, way, wayCoefficient, wayVariance } = chain;
  const { rows, rowMean, rowVariance, rowCoefficient, firstSite, nextSite, slot } = net;
  const width = net.unknowns.wayColumns.length;
  const { a, b, v, level } = net.sites;
  way.set(rowMean);
  wayVariance.set(rowVariance);
  wayCoefficient.set(rowCoefficient);
  for (let r = 1; r <= rows; r++) {
    for (let site = firstSite[r]; site >= 0; site = nextSite[site]) {
      way[r] += a[site];
      wayVariance[r] += v[site];
      const column = level[site];
      if (column >= 0) wayCoefficient[r * width + slot[column]] += b[site];
    }
  }
};

/** What sites and prior say of the globals alone, and the start of the chain. */
const begin = (chain: Chain): void => {
  const { net, global, border, borderRight, weights } = chain;
  const { globals: k, sites, rows, siteCount } = net;
  border.fill(0);
  borderRight.fill(0);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++) {
      const weight = net.globalPrecision[i * k + j];
      border[i * k + j] += weight;
      borderRight[i] += weight * (net.globalMean[j] - global[j]);
    }
  // the sites of parts are eliminated into the ways, those of stubs and of fills that something touches are not
  for (const level of net.unknowns.levels) {
    let bend = 0;
    let push = 0;
    if (level === Global.stub)
      for (let s = 0; s < rows; s++) {
        if (sites.level[s] < 0) continue;
        bend += sites.w[s];
        push += sites.h[s];
      }
    else if (level === Global.fill)
      for (let s = rows; s < 2 * rows; s++) {
        const at = 4 * (s - rows + 1);
        if (sites.level[s] < 0 || weights[at] + weights[at + 3] === 0) continue;
        bend += sites.w[s];
        push += sites.h[s];
      }
    else
      for (let s = 2 * rows; s < siteCount; s++) {
        if (sites.level[s] !== level) continue;
        bend += sites.rest[s];
        push += sites.push[s];
      }
    border[level * k + level] += bend;
    borderRight[level] += push - bend * global[level];
  }
};

/** Normal equations at the present estimate. */
export const assemble = (chain: Chain, held: boolean): void => {
  const { net, core, hole, global, diagonal, couple, right, columns, border, borderRight, weights } = chain;
  const { wayCoefficient, wayVariance, way } = chain;
  const { drift, driftDiagonal, driftCouple, driftRight, driftColumns } = chain;
  const { rows, globals: k, layout, unknowns } = net;
  const { side, room, steps, apart, apartVariance } = layout;
  const { wayColumns, ties, driftVariance } = unknowns;
  const { p, c, g, level } = net.sites;
  const width = 2 * k;
  const slots = wayColumns.length;
  sumWays(chain);
  diagonal.fill(0);
  right.fill(0);
  driftDiagonal.fill(0);
  driftRight.fill(0);
  if (!held) {
    columns.fill(0);
    driftColumns.fill(0);
    begin(chain);
  }
  {
    const [bb, bd, dd] = net.startPrecision;
    const b = net.startMean[0] - core[0];
    const d = net.startMean[1] - hole[0];
    diagonal[0] = bb;
    diagonal[1] = bd;
    diagonal[2] = dd;
    right[0] = bb * b + bd * d;
    right[1] = bd * b + dd * d;
    const weight = 1 / driftVariance[0];
    driftDiagonal[1] = weight;
    driftRight[0] = -weight * drift[0];
  }
  const fillLevel = global[Global.fill];
  const stubLevel = global[Global.stub];
  for (let r = 1; r <= rows; r++) {
    const d = 3 * r;
    const at = 4 * r;
    const here = 2 * r;
    const row = width * r;
    const ways = slots * r;
    const above = hole[r - 1];
    const below = hole[r];
    // way of the core
    const weight = 1 / wayVariance[r];
    let miss = way[r] - (core[r] - core[r - 1]);
    for (let s = 0; s < slots; s++) miss += wayCoefficient[ways + s] * global[wayColumns[s]];
    diagonal[d] += weight;
    diagonal[d - 3] += weight;
    couple[here] = -weight;
    couple[here + 1] = 0;
    right[here] += weight * miss;
    right[here - 2] -= weight * miss;
    // drift of the scale
    const tied = 1 / driftVariance[r];
    const step = tied * (drift[r] - drift[r - 1]);
    driftDiagonal[here + 1] += tied;
    driftDiagonal[here - 1] += tied;
    driftCouple[here] = 0;
    driftCouple[here + 1] = -tied;
    driftRight[r] -= step;
    driftRight[r - 1] += step;
    // stub, or room in the barrel
    const sign = side[r];
    const tight = p[r - 1];
    const tie = c[r - 1];
    const stub = sign < 0 ? room[r] - below + core[r] : below - core[r];
    const pull = sign * (g[r - 1] - tight * stub - tie * stubLevel);
    diagonal[d] += tight;
    diagonal[d + 1] -= tight;
    diagonal[d + 2] += tight;
    right[here] -= pull;
    right[here + 1] += pull;
    if (!Number.isNaN(apart[r])) {
      const w = 1 / apartVariance[r];
      const x = w * (apart[r] - below + core[r]);
      diagonal[d] += w;
      diagonal[d + 1] -= w;
      diagonal[d + 2] += w;
      right[here] -= x;
      right[here + 1] += x;
    }
    if (!held) {
      const up = row - width;
      for (let s = 0; s < slots; s++) {
        const mine = weight * wayCoefficient[ways + s];
        if (mine === 0) continue;
        const column = wayColumns[s];
        columns[row + 2 * column] -= mine;
        columns[up + 2 * column] += mine;
        borderRight[column] -= mine * miss;
        const line = column * k;
        for (let o = s; o < slots; o++) border[line + wayColumns[o]] += mine * wayCoefficient[ways + o];
      }
      if (tie !== 0) {
        columns[row + 2 * Global.stub] -= tie;
        columns[row + 2 * Global.stub + 1] += tie;
        borderRight[Global.stub] -= tie * stub;
      }
    }
    if (steps[r] === 0) {
      const still = 1 / STILL;
      const x = still * (below - above);
      diagonal[d - 1] += still;
      diagonal[d + 2] += still;
      couple[here + 1] = -still;
      right[here - 1] += x;
      right[here + 1] -= x;
      continue;
    }
    // counter and soundings
    const w0 = weights[at];
    const w1 = weights[at + 1];
    const w2 = weights[at + 2];
    const w3 = weights[at + 3];
    const seen = w0 + w3;
    if (seen === 0 && w2 === 0) continue;
    const scale = chain.scale[r];
    const offset = chain.offset[r];
    const site = rows + r - 1;
    const spread = seen > 0 ? 1 / (p[site] + seen) : 0;
    const m00 = w0 - spread * w0 * w0;
    const m01 = w1 - spread * w0 * w1;
    const m02 = -spread * w0 * w3;
    const m11 = w2 - spread * w1 * w1;
    const m12 = -spread * w1 * w3;
    const m22 = w3 - spread * w3 * w3;
    const fillTie = level[site] >= 0 ? c[site] : 0;
    const e0 = w0 > 0 ? net.from[r] - above * scale - offset : 0;
    const e1 = w2 > 0 ? net.to[r] - below * scale - offset : 0;
    const e2 = w3 > 0 ? net.sounding[r] - above - chain.soundingOffset[r] : 0;
    const fill = spread * (g[site] - fillTie * fillLevel - w0 * e0 - w1 * e1 - w3 * e2);
    const x0 = w0 * e0 + w1 * e1 + fill * w0;
    const x1 = w1 * e0 + w2 * e1 + fill * w1;
    const x2 = w3 * e2 + fill * w3;
    diagonal[d - 1] += scale * (scale * m00 + 2 * m02) + m22;
    diagonal[d + 2] += scale * scale * m11;
    couple[here + 1] = scale * (scale * m01 + m12);
    right[here - 1] += scale * x0 + x2;
    right[here + 1] += scale * x1;
    const c0 = m00 * above + m01 * below;
    const c1 = m01 * above + m11 * below;
    const c2 = m02 * above + m12 * below;
    const inScale = above * c0 + below * c1;
    const push = above * x0 + below * x1;
    driftDiagonal[here] += scale * c1;
    driftDiagonal[here + 1] += inScale;
    driftCouple[here] = scale * c0 + c2;
    driftRight[r] += push;
    if (held) continue;
    const dAbove = row - width + 1;
    const dBelow = row + 1;
    const line = k * r;
    columns[dAbove + 2 * Global.cable] += scale * c0 + c2;
    columns[dBelow + 2 * Global.cable] += scale * c1;
    driftColumns[line + Global.cable] += inScale;
    border[Global.cable * k + Global.cable] += inScale;
    borderRight[Global.cable] += push;
    const f0 = spread * fillTie * w0;
    const f1 = spread * fillTie * w1;
    const f2 = spread * fillTie * w3;
    columns[dAbove + 2 * Global.fill] += scale * f0 + f2;
    columns[dBelow + 2 * Global.fill] += scale * f1;
    border[Global.fill * k + Global.fill] -= spread * fillTie * fillTie;
    borderRight[Global.fill] -= fill * fillTie;
    driftColumns[line + Global.fill] += above * f0 + below * f1;
    border[Global.cable * k + Global.fill] += above * f0 + below * f1;
    for (let i = ties.from[r]; i < ties.from[r + 1]; i++) {
      const column = ties.column[i];
      const t = ties.counter[i];
      const t2 = ties.sounding[i];
      const s0 = (m00 + m01) * t + m02 * t2;
      const s1 = (m01 + m11) * t + m12 * t2;
      const s2 = (m02 + m12) * t + m22 * t2;
      const u = (c0 + c1) * t + c2 * t2;
      columns[dAbove + 2 * column] += scale * s0 + s2;
      columns[dBelow + 2 * column] += scale * s1;
      driftColumns[line + column] += u;
      borderRight[column] += t * (x0 + x1) + t2 * x2;
      border[Global.cable * k + column] += u;
      border[Global.fill * k + column] += (f0 + f1) * t + f2 * t2;
      for (let o = ties.from[r]; o < ties.from[r + 1]; o++) {
        const other = ties.column[o];
        if (other > column) continue;
        border[other * k + column] += ties.counter[o] * (s0 + s1) + ties.sounding[o] * s2;
      }
    }
  }
  assembleChecks(chain, held);
};

/** Cable checks: each tells the scale, and its drift where the hole ended. */
const assembleChecks = (chain: Chain, held: boolean): void => {
  const { net, global, drift, driftDiagonal, driftRight, driftColumns, border, borderRight } = chain;
  const k = net.globals;
  const { cable } = Global;
  for (const { row, mark, value, variance } of net.unknowns.checks) {
    const weight = (mark * mark) / variance;
    const push = (mark * (value - mark * (global[cable] + drift[row]))) / variance;
    driftDiagonal[2 * row + 1] += weight;
    driftRight[row] += push;
    if (held) continue;
    driftColumns[row * k + cable] += weight;
    border[cable * k + cable] += weight;
    borderRight[cable] += push;
  }
};
