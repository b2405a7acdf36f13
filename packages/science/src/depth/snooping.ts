import { type Adjusted, adjust } from './adjust.ts';
import type { Aside } from './aside.ts';
import { type Chain, goOn, makeChain } from './chain.ts';
import { type Explained, explain, explainCheck } from './explain.ts';
import { Global } from './global.ts';
import { gross } from './gross.ts';
import { mergeMoved } from './merge-moved.ts';
import { type Job, makeJob, model } from './model.ts';
import type { Net } from './net.ts';
import { order } from './order.ts';
import { patch } from './patch.ts';
import { type Suspect, suspects } from './residuals.ts';
import { settle } from './settle.ts';
import { copySite } from './sites.ts';
import type { Finding } from './solution.ts';
import { REACH } from './window.ts';

/** Stand-ins of the last round are a good start for the next. */
const carryOver = (old: Net, net: Net): void => {
  if (old.rows !== net.rows) return;
  for (let i = 0; i < 2 * net.rows; i++)
    if (old.sites.level[i] === net.sites.level[i] && old.sites.mean[i] === net.sites.mean[i])
      copySite(old.sites, i, net.sites, i);
  for (let part = 0; part < net.partSite.length; part++) {
    const from = old.partSite[part];
    const to = net.partSite[part];
    if (from >= 0 && to >= 0 && old.sites.level[from] === net.sites.level[to])
      copySite(old.sites, from, net.sites, to);
  }
};

/** A chain with other globals begins where the last one ended: those that both have come first in either. */
const beginAt = (next: Chain, before: Chain): void => {
  next.core.set(before.core);
  next.hole.set(before.hole);
  next.drift.set(before.drift);
  const shared = Math.min(next.net.globals, before.net.globals);
  if (next.net.globals > before.net.globals) next.global.set(before.global.subarray(0, shared));
};

/** A season with more rounds than this needs a person, not a computer. */
const ROUNDS = 8;
/** Sweeps before a look, and before another: all but a few stragglers are where they belong by then. */
const FIRST = 6;
const AGAIN = 3;

export interface Snooped {
  readonly job: Job;
  readonly adjusted: Adjusted;
  readonly aside: Aside;
  readonly findings: readonly Finding[];
}

/** The present state: what is adjusted, with what left out. */
interface State {
  readonly job: Job;
  readonly aside: Aside;
  readonly adjusted: Adjusted;
}

/**
 * Adjusts, looks at the places that close worst, sets aside what is more probably a slip than not, adjusts again,
 * until nothing stands out. In one round only places far from each other are judged, so that one slip is not
 * counted twice.
 */
export const snoop = (first: Job): Snooped => {
  let all: Explained[] = gross(first);
  const cleared = new Map<string, number>();
  const aside = without(all);
  let state: State = { job: first, aside, adjusted: adjust(makeChain(model(first, aside)), FIRST) };
  let { sweeps } = state.adjusted;
  const goOnWith = (next: readonly Explained[], most?: number) => {
    state = again(state, next, most);
    sweeps += state.adjusted.sweeps;
  };
  for (let round = 0; round < ROUNDS; round++) {
    const found = look(state, cleared, all);
    if (found.length === 0) break;
    all.push(...found);
    goOnWith(all, AGAIN);
  }
  if (!state.adjusted.converged) goOnWith(all);
  // what another slip had bent, and fits now that this one is out, goes back in
  let findings = settle(all, state.adjusted, state.job);
  const merged = mergeMoved(all, findings, state.job);
  if (merged !== undefined) {
    all = [...merged];
    goOnWith(all);
    findings = settle(all, state.adjusted, state.job);
  }
  const kept = findings.map(
    (finding) => finding.field === 'run' || Math.abs(finding.size) > FITS * finding.detectable,
  );
  if (!kept.every(Boolean)) {
    all = all.filter((_, i) => kept[i]);
    goOnWith(all);
    findings = settle(all, state.adjusted, state.job);
  }
  return { ...state, adjusted: { ...state.adjusted, sweeps }, findings };
};

/** In smallest detectable slips: 1.4 standard deviations. */
const FITS = 0.5;

const look = (state: State, cleared: Map<string, number>, before: readonly Explained[]): Explained[] => {
  const { chain } = state.adjusted;
  const rows = before.filter((one) => one.run > 0).map((one) => one.opening.row);
  const all = suspects(chain).filter((one) => !isCrowded(one.opening.row, rows));
  // what a moved zero or a wrong length bends, soundings and checks of the cable feel far away: they are judged last
  const isSounding = ({ opening }: Suspect) => opening.kind === 'sounding';
  const near = explained(
    state,
    cleared,
    all.filter((one) => !isSounding(one)),
  );
  if (near.length > 0) return near;
  const far = explained(state, cleared, all.filter(isSounding));
  if (far.length > 0) return far;
  const check = oddCheck(chain, state.job);
  return check === undefined ? [] : [check];
};

/** Where two readings side by side are set aside already, a third one says nothing any more. */
const isCrowded = (row: number, rows: readonly number[]): boolean => {
  let count = 0;
  for (const other of rows) if (Math.abs(other - row) <= SIDE_BY_SIDE) count++;
  return count >= 2;
};
const SIDE_BY_SIDE = 2;

const explained = (
  { job, adjusted }: State,
  cleared: Map<string, number>,
  list: readonly Suspect[],
): Explained[] => {
  const { chain } = adjusted;
  const judged: number[] = [];
  const found: Explained[] = [];
  for (const { opening, score } of list) {
    const key = `${opening.kind} ${opening.row}`;
    if (score < 1.2 * (cleared.get(key) ?? 0)) continue;
    if (judged.some((other) => Math.abs(other - opening.row) <= REACH + 1)) continue;
    const one = explain(chain, job, opening);
    if (one === undefined) {
      cleared.set(key, score);
      continue;
    }
    judged.push(opening.row);
    found.push(one);
    // a moved zero and a wrong sounding bend the whole hole: judge the rest once they are allowed for
    if (one.opening.kind === 'zero' || one.opening.kind === 'sounding') break;
  }
  return found;
};

/** The cable check that agrees least with all else, if it is more probably a slip than not. */
const oddCheck = (chain: Chain, job: Job): Explained | undefined => {
  const { net, global, factor, drift, driftCov, driftPull } = chain;
  const k = net.globals;
  let worst: Explained | undefined;
  let most = 0;
  for (const { check, row, mark, value, variance } of net.unknowns.checks) {
    const off = value - mark * (global[Global.cable] + drift[row]);
    let known = driftCov[3 * row + 2];
    for (let j = 0; j < k; j++) known += (factor[Global.cable * k + j] + driftPull[row * k + j]) ** 2;
    known *= mark * mark;
    // what all else says, this check taken out
    const share = 1 - known / variance;
    if (!(share > 1e-6)) continue;
    const sd = Math.sqrt(variance / share);
    const apart = Math.abs(off) / share / sd;
    if (apart <= most) continue;
    const explained = explainCheck(job, check, off / share, sd);
    if (explained === undefined) continue;
    most = apart;
    worst = explained;
  }
  return worst;
};

const without = (all: readonly Explained[]): Aside => {
  const runs = (kind: Explained['opening']['kind']) =>
    all
      .filter((one) => one.opening.kind === kind && one.run > 0 && one.height === undefined)
      .map((one) => one.run);
  const pieces = (isLength: boolean) =>
    all.flatMap(({ piece, finding }) =>
      piece !== undefined && (finding.field === 'length') === isLength ? [piece] : [],
    );
  const set = (one: (explained: Explained) => number | undefined) =>
    new Set(all.map(one).filter((value) => value !== undefined));
  return {
    from: new Set(runs('from')),
    to: new Set(runs('to')),
    zeros: runs('zero'),
    lengths: new Set(pieces(true)),
    gaps: new Set(pieces(false)),
    soundings: set((one) => one.sounding),
    checks: set((one) => one.check),
    heights: set((one) => one.height),
  };
};

const again = (before: State, all: readonly Explained[], most?: number): State => {
  const aside = without(all);
  const { chain } = before.adjusted;
  const moved = new Map(all.flatMap((one) => (one.moved === undefined ? [] : [one.moved])));
  const movedBefore = before.job.moved;
  if (moved.size === movedBefore.size && patch(chain, before.job, before.aside, aside))
    return { job: before.job, aside, adjusted: adjust(chain, most, true) };
  const { o, a, t } = before.job;
  const job =
    moved.size === movedBefore.size ? before.job : { ...makeJob(order(o.readings, moved), a, t), moved };
  const net = model(job, aside);
  carryOver(chain.net, net);
  const sameRows = net.rows === chain.net.rows;
  const same = net.globals === chain.net.globals && sameRows;
  const next = same ? goOn(chain, net) : makeChain(net);
  if (!same && sameRows) beginAt(next, chain);
  return { job, aside, adjusted: adjust(next, most === undefined ? most : FIRST) };
};
