import type { Adjusted } from './adjust.ts';
import type { Explained } from './explain.ts';
import { nameOf, writtenLength } from './explain.ts';
import type { Job } from './model.ts';
import type { Net, Opening } from './net.ts';
import { positions } from './positions.ts';
import { slipsOf } from './slips.ts';
import type { Finding } from './solution.ts';
import { stretch } from './stretch.ts';
import { open, REACH } from './window.ts';

/**
 * Sizes of the findings, and the names of their slips, once all that was found is out of the adjustment: while one
 * slip was still in, it bent what the next was measured against.
 */
export const settle = (found: readonly Explained[], adjusted: Adjusted, job: Job): Finding[] => {
  const { chain } = adjusted;
  const { net, global } = chain;
  const { o } = job;
  const place = positions(chain, [], rowsOf(found, net));
  const lengthOf = (i: number) => place.bottom[i] - place.top[i];
  const gapAbove = (i: number) => place.top[i] - (i > 0 ? place.bottom[i - 1] : chain.core[0]);
  return found.map(({ finding, opening, run, piece, sounding, check, height, moved }) => {
    if (check !== undefined || moved !== undefined) return finding;
    if (height !== undefined) {
      const column = net.unknowns.zeroHeights.find((one) => one.zero === height)?.column as number;
      const zero = (o.readings.zeros ?? [])[height];
      return { ...finding, size: -global[column], suggested: tidy(zero.height + global[column]) };
    }
    if (opening.kind === 'zero') {
      const column = net.unknowns.movedZeros.find((one) => one.run === run)?.column as number;
      return { ...finding, size: global[column] };
    }
    if (piece !== undefined) {
      if (finding.field === 'length') {
        const length = tidy(writtenLength(job, piece));
        return named({ ...finding, size: length - lengthOf(piece) / job.lengths.reduction[piece] }, length);
      }
      const loss = o.pieces[piece].loss as number;
      return { ...finding, size: (finding.field === 'loss' ? loss : 0) - gapAbove(piece) };
    }
    const row = net.layout.counter[run];
    const reading =
      sounding === undefined ? o.runs[run - 1][finding.field as 'from' | 'to'] : o.soundings[sounding].depth;
    const restored = putBack(job, net, { ...opening, row }, run, sounding);
    const opened = open(stretch({ ...chain, net: restored }, row, REACH), { ...opening, row });
    return { ...finding, size: opened.mean, ...nameOf(opened, reading as number, finding) };
  });
};

/** Rows of the pieces that something was found of, and those of the pieces above them. */
const rowsOf = (found: readonly Explained[], { layout }: Net): Set<number> => {
  const out = new Set<number>();
  for (const { piece, run } of found) {
    if (piece === undefined) continue;
    // all rows of its run, and up to the core above
    for (let row = layout.last[run]; row > 0; row--) {
      out.add(row);
      if (layout.part[row] < 2 * piece) break;
    }
  }
  return out;
};

/** A length's slip named anew where its size turned out to be another one. */
const named = (finding: Finding, length: number): Finding => {
  const { suggested: before, ...bare } = finding;
  const near = NEAR_ENOUGH * Math.max(LEAST_SPREAD, finding.detectable);
  const meant = finding.likely === 'doubled piece' ? 0 : before;
  if (meant !== undefined) {
    if (Math.abs(length - meant - finding.size) < near) return finding;
    if (Math.abs(length - finding.size) < near) return { ...bare, likely: 'doubled piece' };
  }
  const [best] = slipsOf(length, 3, 0.005)
    .filter((slip) => Math.abs(slip.size - finding.size) < near)
    .sort((a, b) => Math.abs(a.size - finding.size) - Math.abs(b.size - finding.size));
  if (best === undefined && Math.abs(length - finding.size) < near)
    return { ...bare, likely: 'doubled piece' };
  if (best === undefined) return { ...bare, likely: 'no known slip' };
  return { ...bare, likely: best.slip, suggested: Number((length - best.size).toFixed(6)) };
};
/** Two standard deviations, in smallest detectable slips; metres. */
const NEAR_ENOUGH = 0.7;
const LEAST_SPREAD = 0.03;

/** The net with one reading put back. */
const putBack = (job: Job, net: Net, { kind, row }: Opening, run: number, sounding?: number): Net => {
  const put = (column: Float64Array, value: number) => {
    const out = Float64Array.from(column);
    out[row] = value;
    return out;
  };
  const { o, corrections: c } = job;
  if (sounding !== undefined)
    return {
      ...net,
      sounding: put(net.sounding, o.soundings[sounding].depth + c.sounding[sounding]),
      soundingVariance: put(net.soundingVariance, o.soundings[sounding].sd ** 2),
    };
  const reading = o.runs[run - 1];
  return kind === 'from'
    ? { ...net, from: put(net.from, (reading.from as number) + c.from[run]) }
    : { ...net, to: put(net.to, (reading.to as number) + c.to[run]) };
};

const tidy = (value: number): number => Number(value.toFixed(6));
