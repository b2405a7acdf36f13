import type { Aside } from './aside.ts';
import type { Chain } from './chain.ts';
import { type Job, setCounter, setGap, setLength, setSoundings, sumRow } from './model.ts';
import { refreshStride } from './sites.ts';
import { readingWeights } from './weights.ts';

/** Members of one set but not of both. */
const changed = (a: ReadonlySet<number>, b: ReadonlySet<number>): number[] => {
  const out: number[] = [];
  for (const one of a) if (!b.has(one)) out.push(one);
  for (const one of b) if (!a.has(one)) out.push(one);
  return out;
};

/**
 * Sets aside, or puts back, single readings in the net of a chain, which then goes on from where it is.
 *
 * @returns false, with nothing changed, where the net has no room left or the unknowns are others: it must be built anew
 */
export const patch = (chain: Chain, job: Job, before: Aside, after: Aside): boolean => {
  const sameZeros =
    before.zeros.length === after.zeros.length && before.zeros.every((zero, i) => zero === after.zeros[i]);
  if (
    !sameZeros ||
    changed(before.checks, after.checks).length > 0 ||
    changed(before.heights, after.heights).length > 0
  )
    return false;
  const { net } = chain;
  const gaps = changed(before.gaps, after.gaps);
  const lengths = changed(before.lengths, after.lengths);
  if (net.siteCount + gaps.length + lengths.length > net.sites.count) return false;
  const stir = (row: number) => {
    for (let r = row; r <= Math.min(net.rows, row + 1); r++) {
      chain.unrest[r] = Number.POSITIVE_INFINITY;
      refreshStride(net.sites, r - 1);
      refreshStride(net.sites, net.rows + r - 1);
      for (let site = net.firstSite[r]; site >= 0; site = net.nextSite[site]) refreshStride(net.sites, site);
    }
  };
  const sum = (part: number) => {
    const row = rowOf(net.layout.part, part);
    sumRow(net, row);
    stir(row);
  };
  for (const i of gaps) {
    setGap(net, job, after, i);
    sum(2 * i);
  }
  for (const i of lengths) {
    setLength(net, job, after, i);
    sum(2 * i + 1);
  }
  const weigh = (row: number) => {
    readingWeights(net, row, chain.weights, 4 * row);
    stir(row);
  };
  for (const r of [...changed(before.from, after.from), ...changed(before.to, after.to)]) {
    setCounter(net, job, after, r);
    weigh(net.layout.counter[r]);
  }
  for (const i of changed(before.soundings, after.soundings)) {
    const r = job.o.runOfSounding[i];
    setSoundings(net, job, after, r);
    weigh(net.layout.counter[r + 1]);
  }
  return true;
};

/** Row of a part: parts rise with the rows. */
const rowOf = (part: Int32Array, wanted: number): number => {
  let low = 1;
  let high = part.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (part[middle] <= wanted) low = middle;
    else high = middle - 1;
  }
  return low;
};
