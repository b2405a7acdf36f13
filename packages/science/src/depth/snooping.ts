import { type Adjusted, adjust } from './adjust.ts';
import type { Aside } from './aside.ts';
import type { DepthAssumptions } from './assumptions.ts';
import { type Explained, explain } from './explain.ts';
import { model } from './model.ts';
import type { Net } from './net.ts';
import type { Ordered } from './order.ts';
import { suspects } from './residuals.ts';
import { copySite } from './sites.ts';
import type { Finding } from './solution.ts';
import type { Tolerances } from './tolerances.ts';
import { REACH } from './window.ts';

/** Stand-ins of the last round are a good start for the next. */
const carryOver = (old: Net, net: Net): void => {
  const copy = (from: number, to: number) => {
    if (old.sites.level[from] === net.sites.level[to]) copySite(old.sites, from, net.sites, to);
  };
  for (let i = 0; i < 2 * net.runs; i++) copy(i, i);
  for (let part = 0; part < net.partSite.length; part++)
    if (old.partSite[part] >= 0 && net.partSite[part] >= 0) copy(old.partSite[part], net.partSite[part]);
};

/** A season with more rounds than this needs a person, not a computer. */
const ROUNDS = 12;

export interface Snooped {
  readonly adjusted: Adjusted;
  readonly aside: Aside;
  readonly findings: readonly Finding[];
}

/**
 * Adjusts, looks at the places that close worst, sets aside what is more probably a slip than not, adjusts again,
 * until nothing stands out. In one round only places far from each other are judged, so that one slip is not
 * counted twice.
 */
export const snoop = (o: Ordered, a: DepthAssumptions, t: Tolerances): Snooped => {
  const from = new Set<number>();
  const to = new Set<number>();
  const lengths = new Set<number>();
  const gaps = new Set<number>();
  const losses = new Set<number>();
  const soundings = new Set<number>();
  let zeros: number[] = [];
  const findings: Finding[] = [];
  const cleared = new Map<string, number>();
  let aside: Aside = { from, to, lengths, gaps, soundings, zeros };
  let adjusted = adjust(model(o, a, t, aside));
  for (let round = 0; round < ROUNDS; round++) {
    const judged: number[] = [];
    const found: Explained[] = [];
    for (const { opening, score } of suspects(adjusted.chain)) {
      const key = `${opening.kind} ${opening.run}`;
      if (score < 1.2 * (cleared.get(key) ?? 0)) continue;
      if (judged.some((other) => Math.abs(other - opening.run) <= REACH + 1)) continue;
      const explained = explain(adjusted.chain, o, opening);
      if (explained === undefined) {
        cleared.set(key, score);
        continue;
      }
      judged.push(opening.run);
      found.push(explained);
      // a moved zero or a wrong sounding bends the whole hole: judge the rest once it is allowed for
      if (explained.opening.kind === 'zero' || explained.opening.kind === 'sounding') break;
    }
    if (found.length === 0) break;
    for (const { finding, opening, piece, sounding } of found) {
      findings.push(finding);
      if (opening.kind === 'from') from.add(opening.run);
      else if (opening.kind === 'to') to.add(opening.run);
      else if (opening.kind === 'zero') zeros = [...zeros, opening.run];
      else if (opening.kind === 'sounding' && sounding !== undefined) soundings.add(sounding);
      else if (piece !== undefined && finding.field === 'length') lengths.add(piece);
      else if (piece !== undefined && finding.field === 'loss') losses.add(piece);
      else if (piece !== undefined) gaps.add(piece);
    }
    aside = { from, to, lengths, gaps: new Set([...gaps, ...losses]), soundings, zeros };
    const net = model(o, a, t, aside);
    carryOver(adjusted.chain.net, net);
    adjusted = adjust(net);
  }
  return { adjusted, aside, findings };
};
