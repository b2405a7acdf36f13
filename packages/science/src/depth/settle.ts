import type { Adjusted } from './adjust.ts';
import type { Explained } from './explain.ts';
import { nameOf } from './explain.ts';
import { Global, type Net, type Opening } from './net.ts';
import type { Ordered } from './order.ts';
import { positions } from './positions.ts';
import { slipsOf } from './slips.ts';
import type { Finding } from './solution.ts';
import { stretch } from './stretch.ts';
import { open, REACH } from './window.ts';

/**
 * Sizes of the findings, and the names of their slips, once all that was found is out of the adjustment: while one
 * slip was still in, it bent what the next was measured against.
 */
export const settle = (found: readonly Explained[], adjusted: Adjusted, o: Ordered): Finding[] => {
  const { chain } = adjusted;
  const place = positions(chain);
  const lengthOf = (i: number) => place.bottom[i] - place.top[i];
  const gapAbove = (i: number) => place.top[i] - (i > 0 ? place.bottom[i - 1] : chain.core[0]);
  return found.map(({ finding, opening, piece, sounding }) => {
    if (opening.kind === 'zero') {
      return { ...finding, size: chain.global[Global.zero + chain.net.zeros.indexOf(opening.run)] };
    }
    if (piece !== undefined) {
      const { length, loss } = o.pieces[piece];
      if (finding.field === 'length')
        return named({ ...finding, size: (length as number) - lengthOf(piece) }, length as number);
      return { ...finding, size: (finding.field === 'loss' ? (loss as number) : 0) - gapAbove(piece) };
    }
    const reading =
      sounding === undefined
        ? o.runs[opening.run - 1][finding.field as 'from' | 'to']
        : o.soundings[sounding].depth;
    const net = restored(
      chain.net,
      opening,
      reading as number,
      sounding === undefined ? 0 : o.soundings[sounding].sd,
    );
    const opened = open(stretch({ ...chain, net }, opening.run, REACH), opening);
    return { ...finding, size: opened.mean, ...nameOf(opened, reading as number, finding) };
  });
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
  if (best === undefined) return { ...bare, likely: 'no known slip' };
  return { ...bare, likely: best.slip, suggested: Number((length - best.size).toFixed(6)) };
};
/** Two standard deviations, in smallest detectable slips; metres. */
const NEAR_ENOUGH = 0.7;
const LEAST_SPREAD = 0.03;

/** The net with one reading put back. */
const restored = (net: Net, opening: Opening, reading: number, sd: number): Net => {
  const put = (column: Float64Array, value: number) => {
    const out = Float64Array.from(column);
    out[opening.run] = value;
    return out;
  };
  if (opening.kind === 'from') return { ...net, from: put(net.from, reading) };
  if (opening.kind === 'to') return { ...net, to: put(net.to, reading) };
  return {
    ...net,
    sounding: put(net.sounding, reading),
    soundingVariance: put(net.soundingVariance, sd * sd),
  };
};
