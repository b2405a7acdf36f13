import { firnConstants } from '../constants/firn.ts';
import { numbersTaken, numberTaken, type Relation, relation } from '../relations/relation.ts';
import { degreeDayFactor, degreeDayMelt } from './degree-day-melt.ts';
import { positiveDegrees, yearlyDegreeDays } from './degree-days.ts';
import { meltPercentageOfYear, meltShare } from './melt.ts';
import { numbers } from './quantities.ts';

const meltRelation = relation({
  name: 'melt-percentage',
  title: 'Melt layers of a stretch of core, by length and by mass',
  page: 'melt',
  source: 'Koerner 1977, Science 196, 15-18, doi:10.1126/science.196.4285.15 (abstract read)',
  takes: {
    thicknesses: numbers('t', 'thickness of each melt layer', 'm', [1e-5, 10]),
    densities: numbers('ρ_j', 'density of each, in the same order', 'kg/m3', [300, 925]),
    length: numberTaken('L', 'length of the stretch', 'm', [1e-3, 500], 'a core'),
    density: numberTaken('ρ', 'its mean density, melt layers included', 'kg/m3', [50, 925], 'snow to ice'),
  },
  gives: {
    byLength: { symbol: '', what: 'melt layers by length', unit: '%' },
    byMass: { symbol: '', what: 'melt layers by mass', unit: '%' },
    melt: { symbol: '', what: 'water in the melt layers', unit: 'm w.e.' },
    total: { symbol: '', what: 'water in the stretch', unit: 'm w.e.' },
    matrix: { symbol: '', what: 'density of the firn between the layers', unit: 'kg/m3' },
  },
  compute: ({ thicknesses, densities, length, density }) => {
    let below = 0;
    const share = meltShare(
      // where in the stretch they lie does not matter: laid end to end
      thicknesses.map((thickness, i) => {
        const top = below;
        below += thickness;
        return { top, bottom: below, density: densities[i] ?? Number.NaN, thicknessSd: 0, densitySd: 0 };
      }),
      { from: 0, to: length },
      { value: density, sd: 0 },
    );
    return {
      byLength: share.byLength.value,
      byMass: share.byMass.value,
      melt: share.melt.value,
      total: share.total.value,
      matrix: share.matrix?.value ?? null,
    };
  },
});

const annualMeltRelation = relation({
  name: 'melt-of-a-year',
  title: 'Melt layers of a year, of its accumulation',
  page: 'melt',
  source: 'Koerner 1977, Science 196, 15-18, doi:10.1126/science.196.4285.15 (abstract read)',
  takes: {
    melt: numberTaken('', "water in the year's melt layers", 'm w.e.', [0, 10], 'no more than falls'),
    accumulation: numberTaken(
      'A',
      "the year's accumulation",
      'm w.e.',
      [0.001, 10],
      'what the formula can bear',
    ),
  },
  gives: { byMass: { symbol: '', what: 'melt layers by mass', unit: '%' } },
  compute: ({ melt, accumulation }) => ({
    byMass: meltPercentageOfYear(melt, accumulation),
  }),
});

const daySd = {
  ...numberTaken('σ', "spread of a day's temperature about its mean", 'K', [0, 50], 'weather'),
  usual: firnConstants.degreeDaySpread.value,
};
const meltFactors = {
  surface: { kind: 'choice', symbol: '', what: 'what melts (EISMINT-Greenland)', options: ['snow', 'ice'] },
  refrozen: {
    ...numberTaken('f_r', 'share of the melt that freezes again', '1', [0, 1], 'a share'),
    usual: 0,
  },
} as const;
const calovGreve = 'Calov & Greve 2005, J. Glaciol. 51(172), 173-175 (from memory, checked by quadrature)';
const meltGiven = { symbol: '', what: 'melt', unit: 'm w.e.' } as const;

const degreeDayRelation = relation({
  name: 'degree-day',
  title: 'Positive degrees to be expected of a day',
  page: 'melt',
  source: calovGreve,
  takes: {
    temperature: numberTaken('T', 'mean temperature of the day', 'Cel', [-90, 40], 'weather'),
    sd: daySd,
  },
  gives: { degreeDays: { symbol: 'PDD', what: 'positive degree days', unit: 'K.d' } },
  compute: ({ temperature, sd }) => ({ degreeDays: positiveDegrees(temperature, sd) }),
});

const degreeYearRelation = relation({
  name: 'degree-days-of-a-year',
  title: 'Positive degree days and melt of a mean year',
  page: 'melt',
  source: `${calovGreve}; factors of EISMINT-Greenland, Ritz 1997, as quoted; 2.5 to 20 mm w.e./K/d are published (Hock 2003)`,
  takes: {
    temperature: numberTaken('T', 'mean temperature of the year', 'Cel', [-90, 40], 'weather'),
    swing: numberTaken(
      '',
      'half the difference of warmest and coldest day of the mean year',
      'K',
      [0, 60],
      'weather',
    ),
    sd: daySd,
    ...meltFactors,
  },
  gives: { degreeDays: { symbol: 'PDD', what: 'positive degree days', unit: 'K.d' }, melt: meltGiven },
  compute: ({ temperature, swing, sd, surface, refrozen }) => {
    const degreeDays = yearlyDegreeDays(temperature, swing, sd);
    return { degreeDays, melt: degreeDayMelt(degreeDays, degreeDayFactor(surface), refrozen) };
  },
});

const degreeListRelation = relation({
  name: 'degree-days-of-days',
  title: 'Positive degree days and melt of measured days',
  page: 'melt',
  source: 'Sum of what is above 0; factors of EISMINT-Greenland, Ritz 1997, as quoted',
  takes: {
    temperatures: numbersTaken('T', 'mean temperature of each day', 'Cel', [-90, 40], 'weather'),
    ...meltFactors,
  },
  gives: { degreeDays: { symbol: 'PDD', what: 'positive degree days', unit: 'K.d' }, melt: meltGiven },
  compute: ({ temperatures, surface, refrozen }) => {
    const degreeDays = temperatures.reduce((sum, day) => sum + positiveDegrees(day, 0), 0);
    return { degreeDays, melt: degreeDayMelt(degreeDays, degreeDayFactor(surface), refrozen) };
  },
});

export const meltRelations: readonly Relation[] = [
  meltRelation,
  annualMeltRelation,
  degreeDayRelation,
  degreeYearRelation,
  degreeListRelation,
];
