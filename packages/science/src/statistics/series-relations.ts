import { minimalStandard } from '../random/index.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { align } from './align.ts';
import { correlationOf, count, lagOne, level, list, seed } from './asked.ts';
import { autocorrelation } from './autocorrelation.ts';
import { bootstrapCorrelation } from './block-bootstrap.ts';
import { blockLength } from './block-length.ts';
import { changePoints } from './change-points.ts';
import { correlateSeries, correlationTest } from './correlation.ts';
import { capped, effectivePairs, effectiveValues, effectiveValuesExact } from './effective-size.ts';
import { persistenceTime } from './persistence-time.ts';

/** Series with memory: what a person can call by name. */
export const seriesRelations: readonly Relation[] = [
  relation({
    name: 'correlation-with-memory',
    title: 'Correlation of two series with memory',
    page: 'correlation',
    source:
      'C. S. Bretherton et al. 1999, J. Climate 12, 1990-2009, eq. (30), doi:10.1175/1520-0442(1999)012<1990:TENOSD>2.0.CO;2',
    takes: {
      x: list('x', 'the one series, at even steps'),
      y: list('y', 'the other series, at the same steps'),
      lags: {
        ...numberTaken(
          'K',
          'lags whose memory counts; 1: series of the first order',
          '1',
          [1, 1e6],
          'shorter than the series',
        ),
        usual: 1,
      },
      level,
    },
    gives: {
      correlation: correlationOf,
      xMemory: { symbol: 'a', what: 'autocorrelation of x at lag 1', unit: '1' },
      yMemory: { symbol: 'b', what: 'autocorrelation of y at lag 1', unit: '1' },
      effective: { symbol: 'n*', what: 'pairs that they are worth, no more than there are', unit: '1' },
      t: { symbol: 't', what: "Student's t; none for a correlation of 1 or -1", unit: '1' },
      p: { symbol: 'p', what: 'two-sided p', unit: '1' },
      low: { symbol: 'r(low)', what: 'lower end of the interval', unit: '1' },
      high: { symbol: 'r(high)', what: 'upper end of the interval', unit: '1' },
      naiveP: { symbol: 'p(naive)', what: 'p as if there were no memory', unit: '1' },
    },
    compute: ({ x, y, lags, level: share }) => {
      const { r, used, xMemory, yMemory, t, p, low, high, naiveP } = correlateSeries(x, y, {
        lags,
        level: share,
      });
      return { correlation: r, xMemory, yMemory, effective: used, t, p, low, high, naiveP };
    },
  }),
  relation({
    name: 'correlation-test',
    title: 'Test and interval of a correlation',
    page: 'correlation',
    source: 'R. A. Fisher 1921, Metron 1, 3-32 (from memory)',
    takes: {
      r: numberTaken('r', 'correlation', '1', [-1, 1], 'by definition'),
      n: numberTaken(
        'n',
        'pairs, effective ones where the series have memory',
        '1',
        [3.000001, 1e9],
        "Fisher's z has 1/(n - 3)",
      ),
      level,
    },
    gives: {
      t: { symbol: 't', what: "Student's t; none for a correlation of 1 or -1", unit: '1' },
      p: { symbol: 'p', what: 'two-sided p', unit: '1' },
      low: { symbol: 'r(low)', what: 'lower end of the interval', unit: '1' },
      high: { symbol: 'r(high)', what: 'upper end of the interval', unit: '1' },
    },
    compute: ({ r, n, level: share }) => ({ ...correlationTest(r, n, share) }),
  }),
  relation({
    name: 'block-bootstrap-correlation',
    title: 'Interval of a correlation by moving blocks',
    page: 'correlation',
    source: 'M. Mudelsee 2003, Math. Geol. 35, 651-665, doi:10.1023/B:MATG.0000002982.52104.02 (from memory)',
    takes: {
      x: list('x', 'the one series, at even steps'),
      y: list('y', 'the other series, at the same steps'),
      interval: {
        kind: 'choice',
        symbol: 'CI',
        what: 'how the interval is taken from the resamples',
        options: ['calibrated', 'BCa', 'Student t of Fisher z', 'percentile'],
      },
      level,
      seed,
    },
    gives: {
      correlation: correlationOf,
      low: { symbol: 'r(low)', what: 'lower end of the interval', unit: '1' },
      high: { symbol: 'r(high)', what: 'upper end of the interval', unit: '1' },
      blockLength: { symbol: 'l', what: 'length of the blocks', unit: '1' },
      resamples: { symbol: 'B', what: 'resamples', unit: '1' },
    },
    compute: ({ x, y, interval, level: share, seed: from }) => {
      const done = bootstrapCorrelation(x, y, { seed: from, level: share });
      const [low, high] = {
        calibrated: done.calibrated,
        BCa: done.bca,
        'Student t of Fisher z': done.studentT,
        percentile: done.percentile,
      }[interval];
      return { correlation: done.r, low, high, blockLength: done.blockLength, resamples: done.resamples };
    },
  }),
  relation({
    name: 'autocorrelation',
    title: 'Autocorrelation of a series',
    page: 'correlation',
    source: 'G. E. P. Box & G. M. Jenkins 1970, 2.1.5 (from memory)',
    takes: {
      values: list('x', 'series at even steps'),
      lags: { ...numberTaken('K', 'largest lag', '1', [1, 1e6], 'shorter than the series'), usual: 1 },
    },
    gives: { autocorrelation: { symbol: 'r(k)', what: 'autocorrelation at the lags 0, 1, …', unit: '1' } },
    compute: ({ values, lags }) => ({ autocorrelation: autocorrelation(values, lags) }),
  }),
  relation({
    name: 'effective-pairs',
    title: 'Independent pairs that two series with memory are worth',
    page: 'correlation',
    source:
      'C. S. Bretherton et al. 1999, J. Climate 12, 1990-2009, eq. (30), doi:10.1175/1520-0442(1999)012<1990:TENOSD>2.0.CO;2',
    takes: {
      n: count,
      a: lagOne('a', 'autocorrelation of the one series at lag 1'),
      b: lagOne('b', 'autocorrelation of the other series at lag 1'),
    },
    gives: {
      asPrinted: { symbol: 'n*', what: 'effective number as the formula has it', unit: '1' },
      effective: { symbol: 'min(n*, n)', what: 'no more than there are', unit: '1' },
    },
    compute: ({ n, a, b }) => {
      const asPrinted = effectivePairs(n, a, b);
      return { asPrinted, effective: capped(asPrinted, n) };
    },
  }),
  relation({
    name: 'effective-values',
    title: 'Independent values that a series with memory is worth for its mean',
    page: 'correlation',
    source:
      'C. S. Bretherton et al. 1999, J. Climate 12, 1990-2009, eq. (31), doi:10.1175/1520-0442(1999)012<1990:TENOSD>2.0.CO;2',
    takes: { n: count, a: lagOne('a', 'autocorrelation at lag 1') },
    gives: {
      effective: { symbol: 'n*', what: 'n (1 - a)/(1 + a)', unit: '1' },
      exact: { symbol: 'n* (exact)', what: 'the same for a short series', unit: '1' },
    },
    compute: ({ n, a }) => ({ effective: effectiveValues(n, a), exact: effectiveValuesExact(n, a) }),
  }),
  relation({
    name: 'persistence-time',
    title: 'Time in which the memory of a series falls to 1/e',
    page: 'correlation',
    source: 'M. Mudelsee 2014, section 2.1 (from memory)',
    takes: {
      a: numberTaken(
        'a',
        'autocorrelation at lag 1',
        '1',
        [1e-12, 0.999999],
        'without memory there is no such time',
      ),
      step: {
        ...numberTaken('dt', 'time from one value to the next', 'a', [1e-12, 1e12], 'above 0'),
        usual: 1,
      },
    },
    gives: { time: { symbol: 'tau', what: 'persistence time', unit: 'a' } },
    compute: ({ a, step }) => ({ time: persistenceTime(a, step) }),
  }),
  relation({
    name: 'block-length',
    title: 'Length of the blocks of a moving-block bootstrap',
    page: 'correlation',
    source: 'E. Carlstein 1986; M. Mudelsee 2014, eq. (3.28) (both from memory)',
    takes: {
      n: count,
      a: numberTaken(
        'a',
        'autocorrelation at lag 1; of two series the root of the product',
        '1',
        [0, 0.999999],
        'memory, not the lack of it',
      ),
    },
    gives: {
      exact: { symbol: 'l', what: 'length as the formula has it', unit: '1' },
      rounded: { symbol: 'l', what: 'whole number, 1 to half of the series', unit: '1' },
    },
    compute: ({ n, a }) => ({ ...blockLength(n, a) }),
  }),
  relation({
    name: 'align-series',
    title: 'Least cost of bringing two series together',
    page: 'alignment',
    source:
      'H. Sakoe & S. Chiba 1978, IEEE Trans. ASSP 26, 43-49, doi:10.1109/TASSP.1978.1163055 (from memory)',
    takes: {
      first: list('q', 'the one series'),
      second: list('r', 'the other series'),
      distance: {
        kind: 'choice',
        symbol: 'c',
        what: 'cost of two samples',
        options: ['absolute difference', 'squared difference'],
      },
      pattern: {
        kind: 'choice',
        symbol: 'w',
        what: 'symmetric2: a diagonal step counts twice, the cost can be divided by n + m; symmetric1: once',
        options: ['symmetric2', 'symmetric1'],
      },
    },
    gives: {
      cost: { symbol: 'D', what: 'least cost', unit: '1' },
      normalised: { symbol: 'D/(n + m)', what: 'cost per count; empty for symmetric1', unit: '1' },
      firstPath: { symbol: 'i', what: 'samples of the first series along the path, from 1', unit: '1' },
      secondPath: { symbol: 'j', what: 'samples of the second beside them', unit: '1' },
    },
    compute: ({ first, second, distance, pattern }) => {
      const power = distance === 'absolute difference' ? 1 : 2;
      const { cost, normalised, path } = align(
        first.length,
        second.length,
        (i, j) => Math.abs(first[i] - second[j]) ** power,
        { diagonal: pattern === 'symmetric2' ? 2 : 1 },
      );
      return {
        cost,
        normalised,
        firstPath: path.map(([i]) => i + 1),
        secondPath: path.map(([, j]) => j + 1),
      };
    },
  }),
  relation({
    name: 'change-points',
    title: 'Levels of a series that jumps',
    page: 'change-points',
    source: 'R. Killick et al. 2012, J. Am. Stat. Assoc. 107, 1590-1598; Y.-C. Yao 1988 (from memory)',
    takes: {
      values: list('x', 'series in order, independent about its levels'),
      penalty: {
        ...numberTaken(
          'beta',
          'price of one more stretch, in squared standard deviations; 0: twice the logarithm of the number of values',
          '1',
          [0, 1e9],
          'by definition',
        ),
        usual: 0,
      },
    },
    gives: {
      starts: { symbol: 'i', what: 'first value of each stretch, counted from 1', unit: '1' },
      means: { symbol: 'm', what: 'its mean', unit: '1' },
      sd: { symbol: 's(m)', what: 'standard deviation of its mean', unit: '1' },
      scatter: { symbol: 's', what: 'standard deviation of a value about its level', unit: '1' },
    },
    compute: ({ values, penalty }) => {
      const { stretches, sd } = changePoints(values, penalty === 0 ? {} : { penalty });
      return {
        starts: stretches.map(({ from }) => from + 1),
        means: stretches.map(({ mean }) => mean),
        sd: stretches.map((stretch) => stretch.sd),
        scatter: sd,
      };
    },
  }),
  relation({
    name: 'minimal-standard',
    title: 'Numbers of the minimal standard generator, to be reproduced with any tool',
    page: 'random-numbers',
    source: 'S. K. Park & K. W. Miller 1988, Commun. ACM 31, 1192-1201, doi:10.1145/63039.63042',
    takes: {
      seed: { ...seed, what: 'seed', range: [1, 2147483646], because: 'from 0 nothing else would come' },
      count: {
        ...numberTaken('n', 'how many numbers', '1', [1, 1e6], 'longer lists are no reading'),
        usual: 10,
      },
    },
    gives: {
      numbers: {
        symbol: 's',
        what: 'numbers 1 to 2147483646; over 2147483647 they lie between 0 and 1',
        unit: '1',
      },
    },
    compute: ({ seed: from, count: n }) => {
      const next = minimalStandard(from);
      return { numbers: Array.from({ length: Math.floor(n) }, next) };
    },
  }),
];
