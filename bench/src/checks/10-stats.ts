import { minimalStandard } from '@firnbook/science/random';
import {
  align,
  alignmentCost,
  blockLength,
  correlateSeries,
  correlationTest,
  effectivePairs,
  effectiveValues,
  effectiveValuesExact,
  pathCount,
  persistenceTime,
} from '@firnbook/science/statistics';
import type { Computed, Inputs, Section } from './evaluator.ts';

const numbers = (inputs: Inputs, name: string): readonly number[] => inputs[name] as readonly number[];
const number = (inputs: Inputs, name: string): number => inputs[name] as number;

const pairs = (inputs: Inputs): Computed => {
  const neff = effectivePairs(number(inputs, 'N'), number(inputs, 'r1x'), number(inputs, 'r1y'));
  const { t, p, low, high } = correlationTest(number(inputs, 'r'), neff);
  return { neff, t, p, ci95: [low, high] };
};

const values = (inputs: Inputs): Computed => {
  const [n, a] = [number(inputs, 'N'), number(inputs, 'r1')];
  return { simple: effectiveValues(n, a), exact: effectiveValuesExact(n, a), e_fold: persistenceTime(a) };
};

/** Series of the first order by the minimal standard generator, as the entry's words make it. */
const memory = (a: number, seed: number, drop: number, keep: number): readonly number[] => {
  const next = minimalStandard(seed);
  const out: number[] = [];
  let x = 0;
  for (let i = 0; i < drop + keep; i++) {
    x = a * x + next() / 2147483647 - 0.5;
    if (i >= drop) out.push(x);
  }
  return out;
};

/** Numbers of the entry's description, in the order in which it names them. */
const series = (inputs: Inputs): Computed => {
  const words = String(inputs.gen);
  const found =
    /first (\d+) dropped; x: a=([\d.]+) seed (\d+); y=([\d.]+)x\+AR1\(([\d.]+), seed (\d+)\); n=(\d+)/.exec(
      words,
    );
  if (found === null) throw new Error(`the series can't be made from "${words}"`);
  const [drop, a, seed, share, b, otherSeed, keep] = found.slice(1).map(Number);
  const x = memory(a, seed, drop, keep);
  const noise = memory(b, otherSeed, drop, keep);
  const y = x.map((value, i) => share * value + noise[i]);
  const first = correlateSeries(x, y);
  return {
    x0: x.slice(0, 3),
    y0: y.slice(0, 3),
    r: first.r,
    r1x: first.xMemory,
    r1y: first.yMemory,
    neff_r1: first.effective,
    // twenty values of it: the lags 0 to 19
    neff_acf20: correlateSeries(x, y, { lags: 19 }).effective,
    t: first.t,
    p_naive: first.naiveP,
    p_neff: first.p,
  };
};

const blocks = (inputs: Inputs): Computed => {
  const { exact, rounded } = blockLength(number(inputs, 'N'), number(inputs, 'a'));
  return [exact, rounded];
};

/** Costs by the entry's words: "6x6 ones; row 2 = 0; column 5 = 0; [2,5]=0.01 (1-based)". */
const matrix = (inputs: Inputs): Computed => {
  const words = String(inputs.cost);
  const found = /^(\d+)x(\d+) ones; row (\d+) = 0; column (\d+) = 0; \[(\d+),(\d+)\]=([\d.]+)/.exec(words);
  if (found === null) throw new Error(`the costs can't be made from "${words}"`);
  const [n, m, row, column, i0, j0, there] = found.slice(1).map(Number);
  const cost = (i: number, j: number): number => {
    if (i + 1 === i0 && j + 1 === j0) return there;
    return i + 1 === row || j + 1 === column ? 0 : 1;
  };
  return {
    symmetric1: alignmentCost(n, m, cost, { diagonal: 1 }),
    symmetric2: alignmentCost(n, m, cost, { diagonal: 2 }),
    paths: pathCount(n, m),
  };
};

const aligned = (inputs: Inputs): Computed => {
  const [q, r] = [numbers(inputs, 'q'), numbers(inputs, 'ref')];
  const apart = (i: number, j: number): number => Math.abs(q[i] - r[j]);
  const twice = align(q.length, r.length, apart, { diagonal: 2 });
  return {
    sym1: alignmentCost(q.length, r.length, apart, { diagonal: 1 }),
    sym2: twice.cost,
    sym2_normalised: twice.normalised,
    sq_sym1: alignmentCost(q.length, r.length, (i, j) => apart(i, j) ** 2, { diagonal: 1 }),
  };
};

export const section: Section = {
  section: '10_stats',
  evaluators: [
    { ids: /^neff\.N/, compute: pairs },
    { ids: /^neff\.mean\./, compute: values },
    { ids: /^series\.LCG$/, compute: series },
    { ids: /^blocklen\./, compute: blocks },
    { ids: /^dtw\.matrix/, compute: matrix },
    { ids: /^dtw\.abs/, compute: aligned },
  ],
  not: [],
};
