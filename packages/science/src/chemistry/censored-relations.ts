import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { readCensored } from './censored.ts';
import { censoredBounds, halfLimitMeanDoNotUse } from './censored-bounds.ts';
import { censoredLikelihood } from './censored-likelihood.ts';
import { kaplanMeier } from './kaplan-meier.ts';
import { orderStatistics } from './order-statistics.ts';

const values = {
  kind: 'text',
  symbol: 'x',
  what: 'values in one unit, limits behind <, spaces between',
  example: '<1 1.7 <0.9 2.4 0.7 <1 3.1',
} as const;
const page = 'censored-values';
/** In the unit of the values, whatever that is. */
const given = (symbol: string, what: string) =>
  ({ symbol, what: `${what}, in the unit of the values`, unit: '1' }) as const;

export const censoredRelations: readonly Relation[] = [
  relation({
    name: 'kaplan-meier',
    title:
      'Mean, spread, median and distribution of values below limits, without an assumption (Kaplan-Meier)',
    page,
    source:
      'E. L. Kaplan, P. Meier 1958, J. Am. Stat. Assoc. 53, 457-481; D. R. Helsel 2005, ch. 6 (from memory)',
    takes: { values },
    gives: {
      mean: given('x̄', 'mean'),
      sd: given('s', 'standard deviation'),
      median: given('x_50', 'median; nothing where it lies below all that was detected'),
      detected: given('x_i', 'detected values, from the largest down'),
      share: { symbol: 'F', what: 'share of the population below each of them', unit: '1' },
      shareSd: { symbol: 'u(F)', what: 'standard error of those shares', unit: '1' },
      rest: { symbol: 'F_0', what: 'share below the least detected value', unit: '1' },
      meanLeast: given('x̄_0', 'mean with that share at zero'),
    },
    compute: (taken) => {
      const { mean, sd, median, steps, rest, meanLeast } = kaplanMeier(readCensored(taken.values));
      return {
        mean,
        sd,
        median,
        detected: steps.map(({ value }) => value),
        share: steps.map(({ below }) => below),
        shareSd: steps.map((step) => step.sd),
        rest,
        meanLeast,
      };
    },
    own: (taken) => ({ mean: kaplanMeier(readCensored(taken.values)).meanSd }),
  }),
  relation({
    name: 'order-statistics',
    title: 'Mean, spread and median of lognormal values below limits (robust regression on order statistics)',
    page,
    source:
      'D. R. Helsel, T. A. Cohn 1988, Water Resour. Res. 24, 1997-2004; R. M. Hirsch, J. R. Stedinger 1987 (from memory)',
    takes: { values },
    gives: {
      mean: given('x̄', 'mean'),
      sd: given('s', 'standard deviation'),
      median: given('x_50', 'median'),
      intercept: { symbol: 'a', what: 'intercept of ln x over z', unit: '1' },
      slope: { symbol: 'b', what: 'slope of ln x over z', unit: '1' },
    },
    compute: (taken) => {
      const { mean, sd, median, intercept, slope } = orderStatistics(readCensored(taken.values));
      return { mean, sd, median, intercept, slope };
    },
  }),
  relation({
    name: 'censored-likelihood',
    title: 'Lognormal distribution of values below limits by maximum likelihood, with intervals',
    page,
    source:
      'A. C. Cohen 1959, Technometrics 1, 217-237; R. J. Olsen 1978, Econometrica 46, 1211 (from memory)',
    takes: {
      values,
      confidence: {
        ...numberTaken('1 - α', 'confidence of the intervals', '%', [1, 99.99], 'a probability'),
        usual: 95,
      },
    },
    gives: {
      mu: { symbol: 'μ', what: 'mean of ln x', unit: '1' },
      sigma: { symbol: 'σ', what: 'standard deviation of ln x', unit: '1' },
      mean: given('x̄', 'mean'),
      meanLeast: given('x̄-', 'lower end of the interval of the mean'),
      meanMost: given('x̄+', 'upper end of the interval of the mean'),
      sd: given('s', 'standard deviation'),
      median: given('x_50', 'median'),
      medianLeast: given('x_50-', 'lower end of the interval of the median'),
      medianMost: given('x_50+', 'upper end of the interval of the median'),
    },
    compute: (taken) => {
      const fit = censoredLikelihood(readCensored(taken.values), taken.confidence / 100);
      return {
        mu: fit.mu.value,
        sigma: fit.sigma.value,
        mean: fit.mean.value,
        meanLeast: fit.meanInterval[0],
        meanMost: fit.meanInterval[1],
        sd: fit.sd.value,
        median: fit.median.value,
        medianLeast: fit.medianInterval[0],
        medianMost: fit.medianInterval[1],
      };
    },
    own: (taken) => {
      const { mu, sigma, mean, sd, median } = censoredLikelihood(readCensored(taken.values));
      return { mu: mu.sd, sigma: sigma.sd, mean: mean.sd, sd: sd.sd, median: median.sd };
    },
  }),
  relation({
    name: 'censored-bounds',
    title: 'Least and largest sum and mean that values below limits can have',
    page,
    source: 'arithmetic: all nondetects at zero, all at their limit',
    takes: { values },
    gives: {
      sumLeast: given('Σ-', 'least sum'),
      sumMost: given('Σ+', 'largest sum'),
      meanLeast: given('x̄-', 'least mean'),
      meanMost: given('x̄+', 'largest mean'),
      halfLimits: given(
        'x̄_½',
        'mean with half the limits, DO NOT USE: only to compare with what others computed',
      ),
    },
    compute: (taken) => {
      const readings = readCensored(taken.values);
      const { sum, mean } = censoredBounds(readings);
      return {
        sumLeast: sum[0],
        sumMost: sum[1],
        meanLeast: mean[0],
        meanMost: mean[1],
        halfLimits: halfLimitMeanDoNotUse(readings),
      };
    },
  }),
];
