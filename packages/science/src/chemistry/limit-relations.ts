import { QuantityError } from '../quantity-error.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { blankLimits, blankRules } from './blank-limits.ts';
import { calibratedLimit } from './calibrated-limit.ts';
import { calibrationLine, scatterSources } from './calibration-line.ts';
import { blankKnowledge, currieLimits, currieWorkingLimits } from './currie-limits.ts';
import { type CalibratedContent, inverseCalibration } from './inverse-calibration.ts';
import { countingLimits, poissonLimits } from './poisson-limits.ts';

const any = [-1e12, 1e12] as const;
const free = { unit: '1', range: any, because: 'what the sums can bear' } as const;
const miller =
  'J. C. Miller, J. N. Miller, Statistics and Chemometrics for Analytical Chemistry, calibration (from memory)';
const byCount = 'exact Poisson below 5, Currie from there on';
const countingMethods = [byCount, 'Currie 1968', 'Currie 1968, working formulas', 'exact Poisson'] as const;
const risk = (symbol: string, what: string) => ({
  ...numberTaken(symbol, what, '1', [1e-6, 0.5], 'a risk'),
  usual: 0.05,
});

const standards = {
  contents: { kind: 'numbers', symbol: 'x', what: 'contents of the standards', ...free, unit: 'ug/kg' },
  readings: { kind: 'numbers', symbol: 'y', what: 'their readings', ...free },
} as const;
const sample = {
  reading: {
    kind: 'number',
    symbol: 'y0',
    what: 'mean reading of the sample; its scatter is that of the line, so give it no error here',
    ...free,
  },
  replicates: { ...numberTaken('m', 'readings in that mean', '1', [1, 1e6], 'counted'), usual: 1 },
} as const;
const content = {
  content: { symbol: 'x0', what: 'content of the sample', unit: 'ug/kg' },
  least: { symbol: 'x0-', what: 'lower end of its 95 % interval', unit: 'ug/kg' },
  most: { symbol: 'x0+', what: 'upper end of its 95 % interval', unit: 'ug/kg' },
  place: { symbol: '', what: 'whether it lies within the standards', unit: '' },
  intercept: { symbol: 'a', what: 'intercept', unit: '1' },
  slope: { symbol: 'b', what: 'slope', unit: 'kg/ug' },
  scatter: { symbol: 's', what: 'standard deviation about the line', unit: '1' },
} as const;
const asResults = (
  line: ReturnType<typeof calibrationLine>,
  { value, interval: [least, most], extrapolated }: CalibratedContent,
) => ({
  content: value,
  least,
  most,
  place: extrapolated ? 'outside the standards: extrapolated' : 'within the standards',
  intercept: line.intercept.value,
  slope: line.slope.value,
  scatter: line.scatter,
});

/** What the scatter about the line makes of each result. */
const ownErrors = (line: ReturnType<typeof calibrationLine>, { sd }: CalibratedContent) => ({
  content: sd,
  intercept: line.intercept.sd,
  slope: line.slope.sd,
});

export const limitRelations: readonly Relation[] = [
  relation({
    name: 'blank-limits',
    title: 'Detection and quantification limit from repeated blanks',
    page: 'detection-limits',
    source:
      'G. L. Long, J. D. Winefordner 1983, Anal. Chem. 55, 712A-724A; US EPA 40 CFR 136, appendix B (from memory)',
    takes: {
      blanks: {
        kind: 'numbers',
        symbol: 'x_B',
        what: 'blanks through the whole procedure',
        ...free,
        unit: 'ug/kg',
      },
      rule: { kind: 'choice', symbol: 'k', what: 'how many standard deviations', options: blankRules },
    },
    gives: {
      mean: { symbol: 'x̄_B', what: 'mean blank', unit: 'ug/kg' },
      sd: { symbol: 's_B', what: 'standard deviation of blanks', unit: 'ug/kg' },
      detection: { symbol: 'x_D', what: 'detection limit, above the blank', unit: 'ug/kg' },
      reading: { symbol: 'x_L', what: 'reading at that limit, blank included', unit: 'ug/kg' },
      quantification: { symbol: 'x_Q', what: 'quantification limit, 10 s', unit: 'ug/kg' },
    },
    compute: ({ blanks, rule }) => {
      const { mean, sd, detection, reading, quantification } = blankLimits(blanks, rule);
      return { mean, sd, detection: detection.value, reading, quantification: quantification.value };
    },
    own: ({ blanks, rule }) => {
      const { detection, quantification } = blankLimits(blanks, rule);
      return { detection: detection.sd, quantification: quantification.sd };
    },
  }),
  relation({
    name: 'calibrated-limit',
    title: 'Detection limit with the errors of the calibration in it',
    page: 'detection-limits',
    source: 'G. L. Long, J. D. Winefordner 1983, Anal. Chem. 55, 712A-724A (from memory)',
    takes: {
      blankSd: {
        kind: 'number',
        symbol: 's_B',
        what: 'standard deviation of blank readings',
        ...free,
        range: [0, 1e12],
      },
      intercept: { kind: 'number', symbol: 'a', what: 'intercept', ...free },
      interceptSd: {
        kind: 'number',
        symbol: 's_a',
        what: 'its standard deviation',
        ...free,
        range: [0, 1e12],
      },
      slope: { kind: 'number', symbol: 'b', what: 'slope', ...free, unit: 'kg/ug' },
      slopeSd: {
        kind: 'number',
        symbol: 's_b',
        what: 'its standard deviation',
        ...free,
        unit: 'kg/ug',
        range: [0, 1e12],
      },
      factor: {
        ...numberTaken('k', 'factor, 3 by IUPAC', '1', [1, 10], 'common practice, no source'),
        usual: 3,
      },
    },
    gives: { detection: { symbol: 'c_L', what: 'detection limit', unit: 'ug/kg' } },
    compute: ({ blankSd, intercept, interceptSd, slope, slopeSd, factor }) => ({
      detection: calibratedLimit(
        blankSd,
        { value: intercept, sd: interceptSd },
        { value: slope, sd: slopeSd },
        factor,
      ),
    }),
  }),
  relation({
    name: 'counting-limits',
    title: 'Critical level and detection limit of counts over a blank',
    page: 'detection-limits',
    source:
      'L. A. Currie 1968, Anal. Chem. 40, 586-593, doi:10.1021/ac60259a007; J. Przyborowski, H. Wilenski 1940, Biometrika 31, 313-323 (from memory)',
    takes: {
      blank: numberTaken('B', 'counts of the blank', '1', [0, 1e12], 'counted'),
      known: { kind: 'choice', symbol: '', what: 'how the blank is known', options: blankKnowledge },
      method: { kind: 'choice', symbol: '', what: 'method', options: countingMethods },
      alpha: risk('α', 'risk of finding what is not there'),
      beta: risk('β', 'risk of missing what is'),
    },
    gives: {
      critical: { symbol: 'L_C', what: 'net counts above which something is there', unit: '1' },
      detection: { symbol: 'L_D', what: 'net counts that are found with 1 - β', unit: '1' },
      by: { symbol: '', what: 'method that was used', unit: '' },
    },
    compute: ({ blank, known, method, alpha, beta }) => {
      const risks = { alpha, beta };
      if (method === byCount) return { ...countingLimits(blank, known, risks) };
      if (method === 'exact Poisson') return { ...poissonLimits(blank, known, risks), by: method };
      if (method === 'Currie 1968') return { ...currieLimits(blank, known, risks), by: method };
      if (alpha !== 0.05 || beta !== 0.05)
        throw new QuantityError(
          'Currie 1968, working formulas',
          `risks are ${alpha} and ${beta}`,
          '0.05 both',
        );
      return { ...currieWorkingLimits(blank, known), by: method };
    },
  }),
  relation({
    name: 'inverse-calibration',
    title: 'Content of a sample from a calibration line, with its standard uncertainty',
    page: 'calibration',
    source: miller,
    takes: { ...standards, ...sample },
    gives: content,
    compute: ({ contents, readings, reading, replicates }) => {
      const line = calibrationLine({ contents, readings });
      return asResults(line, inverseCalibration(line, { mean: reading, replicates }));
    },
    own: ({ contents, readings, reading, replicates }) => {
      const line = calibrationLine({ contents, readings });
      return ownErrors(line, inverseCalibration(line, { mean: reading, replicates }));
    },
  }),
  relation({
    name: 'weighted-calibration',
    title: 'Content of a sample from a calibration line weighted by stated deviations',
    page: 'calibration',
    source: miller,
    takes: {
      ...standards,
      sds: {
        kind: 'numbers',
        symbol: 's_i',
        what: 'standard deviations of their readings',
        ...free,
        range: [1e-12, 1e12],
      },
      ...sample,
      readingSd: {
        kind: 'number',
        symbol: 's_0',
        what: 'standard deviation of one reading of the sample',
        ...free,
        range: [1e-12, 1e12],
      },
      scatter: {
        kind: 'choice',
        symbol: '',
        what: 'where the scatter is taken from',
        options: scatterSources,
      },
    },
    gives: content,
    compute: ({ contents, readings, sds, reading, replicates, readingSd, scatter }) => {
      const line = calibrationLine({ contents, readings, sds }, scatter);
      return asResults(line, inverseCalibration(line, { mean: reading, replicates, sd: readingSd }));
    },
    own: ({ contents, readings, sds, reading, replicates, readingSd, scatter }) => {
      const line = calibrationLine({ contents, readings, sds }, scatter);
      return ownErrors(line, inverseCalibration(line, { mean: reading, replicates, sd: readingSd }));
    },
  }),
];
