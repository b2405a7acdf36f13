// Longer than most functions here: the normal equations of a run share two dozen numbers; taken apart these would all be arguments.

import type { Chain } from './chain.ts';
import { Global, STILL } from './net.ts';
import { zeroOffset } from './weights.ts';

/** Sums the parts of every run, with the present sites. */
const sumWays = (chain: Chain): void => {
  const { net, way, wayCoefficient, wayVariance } = chain;
  const { first, partSite, partMean, partVariance, partCoefficient, partGlobal, sites, runs } = net;
  const { a, b, v, level } = sites;
  for (let r = 1; r <= runs; r++) {
    const from = first[r];
    const end = first[r + 1];
    let mean = 0;
    let variance = 0;
    let tape = 0;
    let fit = 0;
    let loss = 0;
    let unsure = 0;
    for (let part = 2 * from; part < 2 * end; part++) {
      const site = partSite[part];
      if (site >= 0) {
        mean += a[site];
        variance += v[site];
        if (level[site] >= 0) unsure += b[site];
      } else {
        mean += partMean[part];
        variance += partVariance[part];
        const global = partGlobal[part];
        if (global === Global.tape) tape += partCoefficient[part];
        else if (global === Global.fit) fit += partCoefficient[part];
        else loss += partCoefficient[part];
      }
    }
    const n = end - from;
    way[r] = mean;
    wayVariance[r] = n === 0 ? STILL : variance + n * n * net.runBiasVariance;
    const at = r * 4;
    wayCoefficient[at] = tape;
    wayCoefficient[at + 1] = fit;
    wayCoefficient[at + 2] = loss;
    wayCoefficient[at + 3] = unsure;
  }
};

/** What sites and prior say of the globals alone, and the start of the chain. */
const begin = (chain: Chain): void => {
  const { net, global, border, borderRight } = chain;
  const { globals: k, sites, runs } = net;
  border.fill(0);
  borderRight.fill(0);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++) {
      const weight = net.globalPrecision[i * k + j];
      border[i * k + j] += weight;
      borderRight[i] += weight * (net.globalMean[j] - global[j]);
    }
  let bend = 0;
  let push = 0;
  const add = (level: number): void => {
    border[level * k + level] += bend;
    borderRight[level] += push - bend * global[level];
    bend = push = 0;
  };
  // the sites of parts are eliminated into the ways, those of stubs and of fills that something touches are not
  for (let s = 2 * runs; s < sites.count; s++) {
    if (sites.level[s] < 0) continue;
    bend += sites.rest[s];
    push += sites.push[s];
  }
  add(Global.unsure);
  for (let s = 0; s < runs; s++) {
    if (sites.level[s] < 0) continue;
    bend += sites.w[s];
    push += sites.h[s];
  }
  add(Global.stub);
  for (let s = runs; s < 2 * runs; s++) {
    const at = 4 * (s - runs + 1);
    if (sites.level[s] < 0 || chain.weights[at] + chain.weights[at + 3] === 0) continue;
    bend += sites.w[s];
    push += sites.h[s];
  }
  add(Global.fill);
};

/** Normal equations at the present estimate. */
export const assemble = (chain: Chain, held: boolean): void => {
  const { net, core, hole, global, diagonal, couple, right, columns, border, borderRight, weights } = chain;
  const { wayCoefficient, wayVariance, way } = chain;
  const { runs, globals: k, zeros } = net;
  const { p, c, g, level } = net.sites;
  const width = 2 * k;
  sumWays(chain);
  diagonal.fill(0);
  right.fill(0);
  if (!held) {
    columns.fill(0);
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
  }
  const scale = 1 + global[Global.cable];
  const fillLevel = global[Global.fill];
  const stubLevel = global[Global.stub];
  const tapeNow = global[Global.tape];
  const fitNow = global[Global.fit];
  const lossNow = global[Global.loss];
  const unsureNow = global[Global.unsure];
  for (let r = 1; r <= runs; r++) {
    const d = 3 * r;
    const at = 4 * r;
    const here = 2 * r;
    const row = width * r;
    const above = hole[r - 1];
    const below = hole[r];
    // way of the core
    const weight = 1 / wayVariance[r];
    const tape = wayCoefficient[at];
    const fit = wayCoefficient[at + 1];
    const loss = wayCoefficient[at + 2];
    const unsure = wayCoefficient[at + 3];
    const miss =
      way[r] + tape * tapeNow + fit * fitNow + loss * lossNow + unsure * unsureNow - (core[r] - core[r - 1]);
    diagonal[d] += weight;
    diagonal[d - 3] += weight;
    couple[here] = -weight;
    couple[here + 1] = 0;
    right[here] += weight * miss;
    right[here - 2] -= weight * miss;
    // stub
    const tight = p[r - 1];
    const tie = c[r - 1];
    const stub = below - core[r];
    const pull = g[r - 1] - tight * stub - tie * stubLevel;
    diagonal[d] += tight;
    diagonal[d + 1] -= tight;
    diagonal[d + 2] += tight;
    right[here] -= pull;
    right[here + 1] += pull;
    if (!held) {
      const up = row - width;
      const wt = weight * tape;
      const wf = weight * fit;
      const wl = weight * loss;
      const wu = weight * unsure;
      columns[row + 2 * Global.tape] -= wt;
      columns[row + 2 * Global.fit] -= wf;
      columns[row + 2 * Global.loss] -= wl;
      columns[row + 2 * Global.unsure] -= wu;
      columns[up + 2 * Global.tape] += wt;
      columns[up + 2 * Global.fit] += wf;
      columns[up + 2 * Global.loss] += wl;
      columns[up + 2 * Global.unsure] += wu;
      borderRight[Global.tape] -= wt * miss;
      borderRight[Global.fit] -= wf * miss;
      borderRight[Global.loss] -= wl * miss;
      borderRight[Global.unsure] -= wu * miss;
      border[Global.tape * k + Global.tape] += wt * tape;
      border[Global.tape * k + Global.fit] += wt * fit;
      border[Global.tape * k + Global.loss] += wt * loss;
      border[Global.tape * k + Global.unsure] += wt * unsure;
      border[Global.fit * k + Global.fit] += wf * fit;
      border[Global.fit * k + Global.loss] += wf * loss;
      border[Global.fit * k + Global.unsure] += wf * unsure;
      border[Global.loss * k + Global.loss] += wl * loss;
      border[Global.loss * k + Global.unsure] += wl * unsure;
      border[Global.unsure * k + Global.unsure] += wu * unsure;
      if (level[r - 1] >= 0) {
        columns[row + 2 * Global.stub] -= tie;
        columns[row + 2 * Global.stub + 1] += tie;
        borderRight[Global.stub] -= tie * stub;
      }
    }
    // counter and soundings
    const w0 = weights[at];
    const w1 = weights[at + 1];
    const w2 = weights[at + 2];
    const w3 = weights[at + 3];
    const seen = w0 + w3;
    if (seen === 0 && w2 === 0) continue;
    const site = runs + r - 1;
    const spread = seen > 0 ? 1 / (p[site] + seen) : 0;
    const m00 = w0 - spread * w0 * w0;
    const m01 = w1 - spread * w0 * w1;
    const m02 = -spread * w0 * w3;
    const m11 = w2 - spread * w1 * w1;
    const m12 = -spread * w1 * w3;
    const m22 = w3 - spread * w3 * w3;
    const offset = zeros.length === 0 ? 0 : zeroOffset(net, r, global);
    const fillTie = level[site] >= 0 ? c[site] : 0;
    const e0 = w0 > 0 ? net.from[r] - above * scale - offset : 0;
    const e1 = w2 > 0 ? net.to[r] - below * scale - offset : 0;
    const e2 = w3 > 0 ? net.sounding[r] - above : 0;
    const fill = spread * (g[site] - fillTie * fillLevel - w0 * e0 - w1 * e1 - w3 * e2);
    const x0 = w0 * e0 + w1 * e1 + fill * w0;
    const x1 = w1 * e0 + w2 * e1 + fill * w1;
    const x2 = w3 * e2 + fill * w3;
    diagonal[d - 1] += scale * (scale * m00 + 2 * m02) + m22;
    diagonal[d + 2] += scale * scale * m11;
    couple[here + 1] = scale * (scale * m01 + m12);
    right[here - 1] += scale * x0 + x2;
    right[here + 1] += scale * x1;
    if (held) continue;
    const dAbove = row - width + 1;
    const dBelow = row + 1;
    const c0 = m00 * above + m01 * below;
    const c1 = m01 * above + m11 * below;
    columns[dAbove + 2 * Global.cable] += scale * c0 + m02 * above + m12 * below;
    columns[dBelow + 2 * Global.cable] += scale * c1;
    border[Global.cable * k + Global.cable] += above * c0 + below * c1;
    borderRight[Global.cable] += above * x0 + below * x1;
    const f0 = spread * fillTie * w0;
    const f1 = spread * fillTie * w1;
    const f2 = spread * fillTie * w3;
    columns[dAbove + 2 * Global.fill] += scale * f0 + f2;
    columns[dBelow + 2 * Global.fill] += scale * f1;
    border[Global.fill * k + Global.fill] -= spread * fillTie * fillTie;
    borderRight[Global.fill] -= fill * fillTie;
    border[Global.cable * k + Global.fill] += above * f0 + below * f1;
    for (let s = 0; s < zeros.length; s++) {
      if (zeros[s] > r) continue;
      // one offset moves the run's start and its end
      const column = Global.zero + s;
      const s0 = m00 + m01;
      const s1 = m01 + m11;
      columns[dAbove + 2 * column] += scale * s0 + m02 + m12;
      columns[dBelow + 2 * column] += scale * s1;
      borderRight[column] += x0 + x1;
      border[Global.cable * k + column] += above * s0 + below * s1;
      border[Global.fill * k + column] += f0 + f1;
      for (let o = 0; o <= s; o++) if (zeros[o] <= r) border[(Global.zero + o) * k + column] += s0 + s1;
    }
  }
};
