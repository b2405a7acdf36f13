import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { level, list, seed } from './asked.ts';
import { coverageFactor } from './coverage-factor.ts';
import { readFormula } from './formula.ts';
import { firstOrderHolds, propagateByDrawing } from './monte-carlo.ts';
import { propagate } from './propagate.ts';
import { quantile } from './quantiles.ts';
import { readQuantities } from './quantity-list.ts';
import { secondOrder } from './second-order.ts';

/** Uncertainty: what a person can call by name. */
export const uncertaintyRelations: readonly Relation[] = [
  relation({
    name: 'propagate',
    title: 'Uncertainty of a formula by the law of propagation',
    page: 'uncertainty',
    source: 'JCGM 100:2008 (GUM), eq. (10), 5.1.2 note, eq. (G.2b)',
    takes: {
      formula: { kind: 'text', symbol: 'f', what: 'formula', example: 'm / (pi / 4 * d^2 * l)' },
      quantities: {
        kind: 'text',
        symbol: 'x',
        what: 'its quantities, each with its standard uncertainty, all in the units of the formula',
        example: 'm = 3.61 ± 0.002; d = 0.0981 ± 0.0004 dof 4; l = 0.52 ± 0.003',
      },
      level,
    },
    gives: {
      value: { symbol: 'y', what: 'value of the formula', unit: '1' },
      sd: { symbol: 'u', what: 'combined standard uncertainty, first order', unit: '1' },
      secondOrder: { symbol: 'u2', what: 'the same with the second order', unit: '1' },
      degrees: {
        symbol: 'nu',
        what: 'effective degrees of freedom; empty where there is no end of them',
        unit: '1',
      },
      factor: { symbol: 'k', what: 'coverage factor', unit: '1' },
      expanded: { symbol: 'U', what: 'expanded uncertainty', unit: '1' },
      parts: { symbol: 'c u', what: 'what each quantity adds, in the order of the formula', unit: '1' },
    },
    own: (_, { sd }) => ({ value: Number(sd) }),
    compute: ({ formula, quantities, level: share }) => {
      const { names, value } = readFormula(formula);
      const inputs = readQuantities(quantities, names).map(({ first }) => first);
      const { values, sd, degrees, parts } = propagate((x) => [value(x)], inputs);
      const effective = degrees[0] ?? Number.POSITIVE_INFINITY;
      const factor = coverageFactor(share, Math.max(effective, 1));
      return {
        value: values[0],
        sd: sd[0],
        secondOrder: secondOrder(value, inputs).sd,
        degrees: Number.isFinite(effective) ? effective : null,
        factor,
        expanded: factor * sd[0],
        parts: parts[0],
      };
    },
  }),
  relation({
    name: 'propagate-by-drawing',
    title: 'Uncertainty of a formula by drawing (Monte Carlo)',
    page: 'uncertainty',
    source: 'JCGM 101:2008, 7.9 and 8',
    takes: {
      formula: { kind: 'text', symbol: 'f', what: 'formula', example: 'm / (pi / 4 * d^2 * l)' },
      quantities: {
        kind: 'text',
        symbol: 'x',
        what: 'its quantities and what is known of each, all in the units of the formula',
        example: 'm = 3.61 ± 0.002; d = 0.0981 ± 0.0004 dof 4; l = 0.515..0.525',
      },
      level,
      seed,
    },
    gives: {
      mean: { symbol: 'y', what: 'mean', unit: '1' },
      sd: { symbol: 'u', what: 'standard uncertainty', unit: '1' },
      low: { symbol: 'y(low)', what: 'lower end of the interval with as much below as above', unit: '1' },
      high: { symbol: 'y(high)', what: 'upper end', unit: '1' },
      shortest: { symbol: 'y(low), y(high)', what: 'shortest interval', unit: '1' },
      trials: { symbol: 'M', what: 'trials', unit: '1' },
      stable: { symbol: 'stable', what: 'whether two digits of the uncertainty stood still', unit: '' },
      firstOrder: { symbol: 'first order', what: 'whether the law of propagation would have done', unit: '' },
    },
    own: (_, { sd }) => ({ mean: Number(sd) }),
    compute: ({ formula, quantities, level: share, seed: from }) => {
      const { names, value } = readFormula(formula);
      const all = readQuantities(quantities, names);
      const drawn = propagateByDrawing(
        value,
        all.map((one) => one.drawn),
        { seed: from, level: share },
      );
      const { values, sd, degrees } = propagate(
        (x) => [value(x)],
        all.map(({ first }) => first),
      );
      const expanded = sd[0] * coverageFactor(share, Math.max(degrees[0] ?? Number.POSITIVE_INFINITY, 1));
      return {
        mean: drawn.mean,
        sd: drawn.sd,
        low: drawn.low,
        high: drawn.high,
        shortest: drawn.shortest,
        trials: drawn.trials,
        stable: drawn.isStable === false ? 'no' : 'yes',
        firstOrder: firstOrderHolds(values[0], expanded, drawn) ? 'yes' : 'no',
      };
    },
  }),
  relation({
    name: 'coverage-factor',
    title: 'Coverage factor of an expanded uncertainty',
    page: 'uncertainty',
    source: 'JCGM 100:2008 (GUM), G.3 and table G.2',
    takes: {
      level,
      degrees: numberTaken(
        'nu',
        'effective degrees of freedom, cut down to a whole number',
        '1',
        [1, 1e9],
        'by definition; from some thousands on it is the normal distribution',
      ),
    },
    gives: { factor: { symbol: 'k', what: 'coverage factor', unit: '1' } },
    compute: ({ level: share, degrees }) => ({ factor: coverageFactor(share, degrees) }),
  }),
  relation({
    name: 'quantile',
    title: 'Quantile of data',
    page: 'uncertainty',
    source:
      'R. J. Hyndman & Y. Fan 1996, Am. Stat. 50, 361-365, doi:10.1080/00031305.1996.10473566 (from memory)',
    takes: {
      values: list('x', 'data'),
      share: { ...numberTaken('p', 'share below', '1', [0, 1], 'by definition'), usual: 0.5 },
      rule: {
        kind: 'choice',
        symbol: 'type',
        what: 'how it lies between two of the data: number of Hyndman & Fan',
        options: ['7', '4', '5', '6', '8', '9'],
      },
    },
    gives: { quantile: { symbol: 'Q', what: 'value below which the share lies', unit: '1' } },
    compute: ({ values, share, rule }) => ({ quantile: quantile(values, share, rule) }),
  }),
];
