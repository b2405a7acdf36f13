import { QuantityError } from '../quantity-error.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import {
  dayOfDecimalYear,
  decimalYear,
  readDate,
  writtenDate,
  writtenOrdinal,
  writtenWeek,
} from './dates.ts';
import { elapsedYears } from './elapsed.ts';
import { epochs, yearByEpoch } from './epochs.ts';
import { countedAge, countingConventions } from './layer-counting.ts';
import { daysOfYearNamed, yearNames } from './year-length.ts';

const layers = (symbol: string, what: string) => numberTaken(symbol, what, '1', [0, 1e7], 'a count');

const countedAgeRelation = relation({
  name: 'counted-age',
  title: 'Age by annual layers, certain and uncertain',
  page: 'layer-counting',
  source:
    'Andersen et al. 2006, Quat. Sci. Rev. 25, 3246 (abstract); Svensson et al. 2008, Clim. Past 4, 47, doi:10.5194/cp-4-47-2008 (abstract)',
  takes: {
    certain: layers('N', 'layers that nobody doubts'),
    uncertain: layers('U', 'layers that may be one or none'),
    convention: {
      kind: 'choice',
      symbol: 'σ',
      what: 'what a standard uncertainty of the count is',
      options: countingConventions,
    },
  },
  gives: {
    age: { symbol: 't', what: 'age', unit: 'a' },
    mce: { symbol: 'MCE', what: 'maximum counting error', unit: 'a' },
    sd: { symbol: 'σ', what: 'standard uncertainty by the convention', unit: 'a' },
  },
  compute: ({ certain, uncertain, convention }) => {
    const { age, mce, sd } = countedAge(certain, uncertain, convention);
    return { age, mce, sd };
  },
  own: ({ certain, uncertain, convention }) => ({ age: countedAge(certain, uncertain, convention).sd }),
});

const epochRelation = relation({
  name: 'epoch',
  title: 'A year in CE, BCE, BP and b2k',
  page: 'epochs-and-dates',
  source: 'By definition: BP counts from 1950, b2k from 2000; there is no year 0 CE or BCE',
  takes: {
    year: numberTaken('', 'year, counted in the epoch named', '1', [-1e8, 1e8], 'what the formula can bear'),
    epoch: { kind: 'choice', symbol: '', what: 'epoch in which it is given', options: epochs },
  },
  gives: {
    astronomical: { symbol: '', what: 'astronomical year (0 is 1 BCE)', unit: '1' },
    BP: { symbol: 'BP', what: 'years before 1950', unit: '1' },
    b2k: { symbol: 'b2k', what: 'years before 2000', unit: '1' },
    written: { symbol: '', what: 'as people write it', unit: '' },
  },
  compute: ({ year, epoch }) => ({ ...yearByEpoch(year, epoch) }),
});

const date = (what: string, example: string) => ({ kind: 'text', symbol: '', what, example }) as const;

const dateRelation = relation({
  name: 'date',
  title: 'A date as decimal year, day of the year, week date',
  page: 'epochs-and-dates',
  source: 'ISO 8601, proleptic Gregorian calendar (from memory)',
  takes: { date: date('date, in any of the three writings of ISO 8601', '1986-04-26') },
  gives: {
    date: { symbol: '', what: 'calendar date', unit: '' },
    ordinal: { symbol: '', what: 'year and day of the year', unit: '' },
    week: { symbol: '', what: 'year, week and weekday', unit: '' },
    decimalYear: { symbol: '', what: 'midnight at its beginning, as decimal year', unit: '1' },
  },
  compute: ({ date: text }) => {
    const day = readDate(text);
    return {
      date: writtenDate(day),
      ordinal: writtenOrdinal(day),
      week: writtenWeek(day),
      decimalYear: decimalYear(day),
    };
  },
});

const decimalRelation = relation({
  name: 'decimal-year',
  title: 'Date of a decimal year',
  page: 'epochs-and-dates',
  source: 'By definition: share of a calendar year of 365 or 366 days',
  takes: {
    year: numberTaken(
      '',
      'decimal year, CE (astronomical before 1)',
      '1',
      [-9998, 9999],
      'four digits, as ISO 8601 writes years',
    ),
  },
  gives: { date: { symbol: '', what: 'the day it lies in', unit: '' } },
  compute: ({ year }) => ({ date: writtenDate(dayOfDecimalYear(year)) }),
});

const elapsedRelation = relation({
  name: 'elapsed',
  title: 'Time between two dates, in years of a named length',
  page: 'epochs-and-dates',
  source: 'Days counted; lengths of years: UCUM 2.2, CF conventions 1.13 (of UDUNITS), NUBASE2020',
  takes: {
    from: date('earlier date', '1963-07-01'),
    to: date('later date', '2026-03-01'),
    year: { kind: 'choice', symbol: 'a', what: 'whose year', options: yearNames },
  },
  gives: {
    years: { symbol: 't', what: 'elapsed, in those years', unit: '1' },
    days: { symbol: '', what: 'elapsed', unit: 'd' },
    yearLength: { symbol: '', what: 'length of such a year', unit: 'd' },
  },
  compute: ({ from, to, year }) => {
    const years = elapsedYears(readDate(from), readDate(to), year);
    if (years < 0) throw new QuantityError('elapsed', `${from} lies after ${to}`, 'the earlier date first');
    const yearLength = daysOfYearNamed(year);
    return { years, days: years * yearLength, yearLength };
  },
});

export const calendarRelations: readonly Relation[] = [
  countedAgeRelation,
  epochRelation,
  dateRelation,
  decimalRelation,
  elapsedRelation,
];
