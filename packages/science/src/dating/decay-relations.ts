import { QuantityError } from '../quantity-error.ts';
import { numbersTaken, numberTaken, type Relation, relation } from '../relations/relation.ts';
import { readDate } from './dates.ts';
import { decayConstant, decayed, relativeErrorByHalfLife } from './decay.ts';
import { elapsedYears } from './elapsed.ts';
import { evaluations, type HalfLife, halfLife } from './half-life.ts';
import { constantConcentrationAge } from './lead-210-constant-concentration.ts';
import { constantFluxAccumulation } from './lead-210-constant-flux.ts';
import { constantSupply } from './lead-210-constant-supply.ts';

const law = 'Law of radioactive decay; half-life by the evaluation named, see the page of constants';
const models =
  'Appleby & Oldfield 1978, Catena 5, 1-8; Goldberg 1963 (from memory); half-life of 210Pb as named';

const evaluation = {
  kind: 'choice',
  symbol: '',
  what: 'whose half-life',
  options: evaluations,
} as const;
const leadEvaluation = { ...evaluation, options: ['NUBASE2020', 'DDEP'] } as const;
const nuclide = { kind: 'text', symbol: '', what: 'nuclide', example: 'Cs-137' } as const;
const activity = numberTaken('A', 'activity of a kilogram', 'Bq/kg', [0, 1e12], 'an activity');
const sourceGiven = { symbol: '', what: 'whose half-life that is', unit: '' } as const;
const sourceOf = ({ published: { source, seen } }: HalfLife): string => `${source} (${seen})`;
const halfLifeGiven = { symbol: 'T½', what: 'half-life that was used', unit: 'a' } as const;

const halfLifeRelation = relation({
  name: 'half-life',
  title: 'Half-life of a nuclide',
  page: 'decay',
  source: 'NUBASE2020 (read); DDEP evaluations of LNHB; Libby and Cambridge for radiocarbon (from memory)',
  takes: { nuclide, evaluation },
  gives: {
    halfLife: halfLifeGiven,
    rate: { symbol: 'λ', what: 'decay constant', unit: '1/a' },
    published: { symbol: '', what: 'as published', unit: '' },
    source: sourceGiven,
  },
  compute: ({ nuclide: name, evaluation: by }) => {
    const found = halfLife(name, by);
    const { value, sd, unit } = found.published;
    return {
      halfLife: found.value,
      rate: decayConstant(found.value),
      published: `${value} ± ${sd ?? 'unknown'} ${unit}`,
      source: sourceOf(found),
    };
  },
  own: ({ nuclide: name, evaluation: by }) => {
    const { value, sd } = halfLife(name, by);
    return { halfLife: sd, rate: (Math.LN2 * sd) / value ** 2 };
  },
});

const decayRelation = relation({
  name: 'decay',
  title: 'Activity that is left after a time',
  page: 'decay',
  source: law,
  takes: {
    activity,
    elapsed: numberTaken(
      't',
      'time elapsed; negative for what there was before',
      'a',
      [-1e8, 1e8],
      'what the formula can bear; to 50 half-lives',
    ),
    nuclide,
    evaluation,
  },
  gives: {
    activity: { symbol: 'A', what: 'activity then', unit: 'Bq/kg' },
    halfLife: halfLifeGiven,
    source: sourceGiven,
  },
  compute: ({ activity: at, elapsed, nuclide: name, evaluation: by }) => {
    const found = halfLife(name, by);
    return { activity: decayed(at, elapsed, found.value), halfLife: found.value, source: sourceOf(found) };
  },
  own: ({ elapsed, nuclide: name, evaluation: by }, results) => {
    const { value, sd } = halfLife(name, by);
    return {
      activity: (results.activity as number) * relativeErrorByHalfLife(elapsed, value, sd),
      halfLife: sd,
    };
  },
});

/** Years between two dates, of the length in which half-lives are used here. */
const between = (from: string, to: string): number => {
  const years = elapsedYears(readDate(from), readDate(to));
  if (years < 0)
    throw new QuantityError('decay', `${from} lies after ${to}`, 'deposition before the measurement');
  return years;
};

const correctionRelation = relation({
  name: 'decay-correction',
  title: 'Activity at the day of deposition, by a measured one',
  page: 'decay',
  source: law,
  takes: {
    activity,
    measured: { kind: 'text', symbol: '', what: 'day of the measurement', example: '2026-03-01' },
    deposited: { kind: 'text', symbol: '', what: 'day of deposition', example: '1963-07-01' },
    nuclide,
    evaluation,
  },
  gives: {
    activity: { symbol: 'A_0', what: 'activity at deposition', unit: 'Bq/kg' },
    elapsed: { symbol: 't', what: 'time between', unit: 'a' },
    halfLife: halfLifeGiven,
    source: sourceGiven,
  },
  compute: ({ activity: at, measured, deposited, nuclide: name, evaluation: by }) => {
    const found = halfLife(name, by);
    const elapsed = between(deposited, measured);
    return {
      activity: decayed(at, -elapsed, found.value),
      elapsed,
      halfLife: found.value,
      source: sourceOf(found),
    };
  },
  own: ({ measured, deposited, nuclide: name, evaluation: by }, results) => {
    const { value, sd } = halfLife(name, by);
    return {
      activity:
        (results.activity as number) * relativeErrorByHalfLife(between(deposited, measured), value, sd),
      halfLife: sd,
    };
  },
});

const lead = (by: 'NUBASE2020' | 'DDEP') => halfLife('Pb-210', by);
const concentrationOf = (symbol: string, what: string) =>
  numberTaken(symbol, what, 'mBq/kg', [1e-9, 1e9], 'above 0: unsupported 210Pb that was found');

const concentrationRelation = relation({
  name: 'lead-210-constant-concentration',
  title: 'Age by 210Pb of constant concentration',
  page: 'lead-210',
  source: models,
  takes: {
    surface: concentrationOf('C_0', 'unsupported 210Pb of fresh snow'),
    concentration: concentrationOf('C', 'unsupported 210Pb at the depth'),
    evaluation: leadEvaluation,
  },
  gives: { age: { symbol: 't', what: 'age', unit: 'a' }, halfLife: halfLifeGiven },
  compute: ({ surface, concentration, evaluation: by }) => {
    const { value } = lead(by);
    return { age: constantConcentrationAge(surface, concentration, value), halfLife: value };
  },
  own: ({ evaluation: by }, results) => {
    const { value, sd } = lead(by);
    return { age: (Math.abs(results.age as number) * sd) / value, halfLife: sd };
  },
});

const series = (symbol: string, what: string, unit: string, range: readonly [number, number]) =>
  numbersTaken(symbol, what, unit, range, 'firn and ice cores');

/** @throws QuantityError for a list that is not as long as another */
const pair = (name: string, list: readonly number[], length: number): readonly number[] => {
  if (list.length === length) return list;
  throw new QuantityError(
    '210Pb',
    `there are ${list.length} ${name}`,
    `${length}, as many as concentrations`,
  );
};

const fluxRelation = relation({
  name: 'lead-210-constant-flux',
  title: 'Accumulation by 210Pb of constant flux',
  page: 'lead-210',
  source: models,
  takes: {
    depths: series('m', 'middle of each layer', 'm w.e.', [0, 5000]),
    concentrations: series('C', 'unsupported 210Pb of each layer', 'mBq/kg', [1e-9, 1e9]),
    sds: series('u_C', 'standard uncertainty of each', 'mBq/kg', [1e-9, 1e9]),
    evaluation: leadEvaluation,
  },
  gives: {
    accumulation: { symbol: 'a', what: 'accumulation', unit: 'm w.e./a' },
    slope: { symbol: '', what: 'change of ln C a metre of water', unit: '1/m w.e.' },
    surface: { symbol: 'C_0', what: 'concentration at the surface, by the line', unit: 'mBq/kg' },
    chiSquare: { symbol: 'χ²/ν', what: 'reduced chi square', unit: '1' },
    halfLife: halfLifeGiven,
  },
  compute: ({ depths, concentrations, sds, evaluation: by }) => {
    const { value, sd } = lead(by);
    const fit = fitted(depths, concentrations, sds, value, sd);
    return {
      accumulation: fit.accumulation,
      slope: fit.slope,
      surface: fit.surface,
      chiSquare: Number.isFinite(fit.reducedChiSquare) ? fit.reducedChiSquare : null,
      halfLife: value,
    };
  },
  own: ({ depths, concentrations, sds, evaluation: by }) => {
    const { value, sd } = lead(by);
    const fit = fitted(depths, concentrations, sds, value, sd);
    return {
      accumulation: fit.accumulationSd,
      slope: fit.slopeSd,
      surface: fit.surface * fit.surfaceShare,
      halfLife: sd,
    };
  },
});

const fitted = (
  depths: readonly number[],
  concentrations: readonly number[],
  sds: readonly number[],
  value: number,
  sd: number,
) => {
  const at = pair('depths', depths, concentrations.length);
  const errors = pair('uncertainties', sds, concentrations.length);
  return constantFluxAccumulation(
    concentrations.map((concentration, i) => ({ depth: at[i], concentration, sd: errors[i] })),
    value,
    sd,
  );
};

const supplyRelation = relation({
  name: 'lead-210-constant-supply',
  title: 'Ages and accumulation by 210Pb of constant rate of supply',
  page: 'lead-210',
  source: models,
  takes: {
    boundaries: series(
      'm',
      'boundaries of the layers from 0 down, one more than layers',
      'm w.e.',
      [0, 5000],
    ),
    concentrations: series('C', 'unsupported 210Pb of each layer', 'mBq/kg', [1e-9, 1e9]),
    sds: series('u_C', 'standard uncertainty of each', 'mBq/kg', [0, 1e9]),
    tail: numberTaken(
      'A_n',
      'unsupported 210Pb below the last boundary',
      'mBq/m2',
      [1e-6, 1e12],
      'above 0: or the last age has no bound',
    ),
    tailSd: numberTaken('u_A', 'standard uncertainty of it', 'mBq/m2', [0, 1e12], 'an uncertainty'),
    evaluation: leadEvaluation,
  },
  gives: {
    ages: { symbol: 't', what: 'age of each boundary', unit: 'a' },
    ageSds: { symbol: 'u_t', what: 'standard uncertainty of each age', unit: 'a' },
    rates: { symbol: 'r', what: 'accumulation of each layer, at its middle', unit: 'm w.e./a' },
    rateSds: { symbol: 'u_r', what: 'standard uncertainty of each', unit: 'm w.e./a' },
    supply: { symbol: '', what: '210Pb that falls a year', unit: 'mBq/m2' },
    halfLife: halfLifeGiven,
  },
  compute: ({ boundaries, concentrations, sds, tail, tailSd, evaluation: by }) => {
    const { value, sd } = lead(by);
    const found = constantSupply({ boundaries, concentrations, sds, tail, tailSd }, value, sd);
    const { ages, ageSds, rates, rateSds, supply } = found;
    return { ages, ageSds, rates, rateSds, supply, halfLife: value };
  },
});

export const decayRelations: readonly Relation[] = [
  halfLifeRelation,
  decayRelation,
  correctionRelation,
  concentrationRelation,
  fluxRelation,
  supplyRelation,
];
