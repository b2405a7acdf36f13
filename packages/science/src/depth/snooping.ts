import { type Adjusted, adjust } from './adjust.ts';
import { type Aside, nothingAside } from './aside.ts';
import type { DepthAssumptions } from './assumptions.ts';
import { goOn, makeChain } from './chain.ts';
import { type Explained, explain } from './explain.ts';
import { model } from './model.ts';
import type { Net, Opening } from './net.ts';
import type { Ordered } from './order.ts';
import { suspects } from './residuals.ts';
import { settle } from './settle.ts';
import { copySite } from './sites.ts';
import type { Finding } from './solution.ts';
import type { Tolerances } from './tolerances.ts';
import { REACH } from './window.ts';

/** Stand-ins of the last round are a good start for the next. */
const carryOver = (old: Net, net: Net): void => {
  for (let i = 0; i < 2 * net.runs; i++)
    if (old.sites.level[i] === net.sites.level[i]) copySite(old.sites, i, net.sites, i);
  for (let part = 0; part < net.partSite.length; part++) {
    const from = old.partSite[part];
    const to = net.partSite[part];
    if (from >= 0 && to >= 0 && old.sites.level[from] === net.sites.level[to])
      copySite(old.sites, from, net.sites, to);
  }
};

/** A season with more rounds than this needs a person, not a computer. */
const ROUNDS = 8;
/** Sweeps before a look, and before another: all but a few stragglers are where they belong by then. */
const FIRST = 6;
const AGAIN = 3;

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
  let all: Explained[] = [];
  const cleared = new Map<string, number>();
  let aside: Aside = nothingAside;
  let adjusted = adjust(model(o, a, t, aside), FIRST);
  let sweeps = adjusted.sweeps;
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
    all.push(...found);
    aside = without(all);
    adjusted = again(o, a, t, aside, adjusted, AGAIN);
    sweeps += adjusted.sweeps;
  }
  if (!adjusted.converged) {
    adjusted = adjust(adjusted.chain.net, undefined, adjusted.chain, true);
    sweeps += adjusted.sweeps;
  }
  // what another slip had bent, and fits now that this one is out, goes back in
  const findings = settle(all, adjusted, o);
  const kept = findings.map((finding) => Math.abs(finding.size) > FITS * finding.detectable);
  if (kept.every(Boolean)) return { adjusted: { ...adjusted, sweeps }, aside, findings };
  all = all.filter((_, i) => kept[i]);
  aside = without(all);
  adjusted = again(o, a, t, aside, adjusted);
  sweeps += adjusted.sweeps;
  return { adjusted: { ...adjusted, sweeps }, aside, findings: settle(all, adjusted, o) };
};

/** In smallest detectable slips: 1.4 standard deviations. */
const FITS = 0.5;

const without = (all: readonly Explained[]): Aside => {
  const runs = (kind: Opening['kind']) =>
    all.filter((one) => one.opening.kind === kind).map((one) => one.opening.run);
  const pieces = (isLength: boolean) =>
    all.flatMap(({ piece, finding }) =>
      piece !== undefined && (finding.field === 'length') === isLength ? [piece] : [],
    );
  return {
    from: new Set(runs('from')),
    to: new Set(runs('to')),
    zeros: runs('zero'),
    lengths: new Set(pieces(true)),
    gaps: new Set(pieces(false)),
    soundings: new Set(all.flatMap(({ sounding }) => (sounding === undefined ? [] : [sounding]))),
  };
};

const again = (
  o: Ordered,
  a: DepthAssumptions,
  t: Tolerances,
  aside: Aside,
  before: Adjusted,
  most?: number,
): Adjusted => {
  const net = model(o, a, t, aside);
  carryOver(before.chain.net, net);
  const same = net.globals === before.chain.net.globals;
  return adjust(net, most, same ? goOn(before.chain, net) : makeChain(net), same);
};
