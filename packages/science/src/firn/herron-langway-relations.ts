import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { closeOffDensity, lockInDensity } from './close-off.ts';
import { type FirnLayer, fitHerronLangway } from './fit-herron-langway.ts';
import { type FirnColumn, type FirnSite, herronLangway, outsideCalibration } from './herron-langway.ts';
import {
  accumulation,
  closeOffVariant,
  densityOf,
  depth,
  gasConstant,
  gasConstantNamed,
  numbers,
  surfaceDensity,
  temperature,
} from './quantities.ts';
import { firnStrainRate, sinkingRate } from './strain-rate.ts';

const paper =
  'Herron & Langway 1980, J. Glaciol. 25(93), 373-385, doi:10.3189/S0022143000015239, eqs. 4 to 11';
const site = {
  temperature,
  accumulation,
  surfaceDensity,
  gasConstant,
} as const;

interface SiteGiven {
  readonly temperature: number;
  readonly accumulation: number;
  readonly surfaceDensity: number;
  readonly gasConstant: '8.314' | '8.315';
}

const siteOf = (given: SiteGiven): FirnSite => ({
  temperature: inKelvin(given.temperature),
  accumulation: given.accumulation,
  surfaceDensity: given.surfaceDensity,
  gasConstant: gasConstantNamed(given.gasConstant),
});
const columnOf = (given: SiteGiven): FirnColumn => herronLangway(siteOf(given));

/** Words where the site lies outside of what the model was made from. */
const remarkOf = ({ temperature: celsius, accumulation }: SiteGiven): string => {
  const ways = outsideCalibration({ temperature: inKelvin(celsius), accumulation });
  return ways.length === 0
    ? 'within the sites that the model was made from (dry firn alone)'
    : `${ways.join(' and ')} than the sites that the model was made from: take it as rough`;
};

const columnGives = {
  density: { symbol: 'ρ', what: 'density', unit: 'kg/m3' },
  age: { symbol: 't', what: 'age', unit: 'a' },
  water: { symbol: 'w', what: 'water equivalent above', unit: 'm w.e.' },
} as const;
const remarkGiven = { remark: { symbol: '', what: 'how the site fits the model', unit: '' } } as const;

const herronLangwayRelation = relation({
  name: 'herron-langway',
  title: 'Density, age and close-off of dry firn',
  page: 'firn',
  source: paper,
  takes: { depth, ...site, closeOff: closeOffVariant },
  gives: {
    ...columnGives,
    air: { symbol: '', what: 'air in the firn above', unit: 'm' },
    depth550: { symbol: 'z_550', what: 'depth of 550 kg/m3', unit: 'm' },
    age550: { symbol: 't_550', what: 'age there', unit: 'a' },
    closeOffDensity: { symbol: 'ρ_co', what: 'density of close-off', unit: 'kg/m3' },
    closeOffDepth: { symbol: 'z_co', what: 'depth of close-off', unit: 'm' },
    closeOffAge: { symbol: 't_co', what: 'age of the firn there', unit: 'a' },
    lockInDepth: { symbol: 'z_LI', what: 'depth of lock-in', unit: 'm' },
    ...remarkGiven,
  },
  compute: ({ depth: h, closeOff, ...given }) => {
    const column = columnOf(given);
    const at = closeOffDensity(inKelvin(given.temperature), closeOff, column.iceDensity);
    // a surface denser than close-off has neither depth
    const depthOf = (density: number) =>
      density >= given.surfaceDensity ? column.depthOfDensity(density) : null;
    const closeOffDepth = depthOf(at);
    return {
      density: column.density(h),
      age: column.age(h),
      water: column.waterEquivalent(h),
      air: column.firnAir(h),
      depth550: column.depth550,
      age550: column.age550,
      closeOffDensity: at,
      closeOffDepth,
      closeOffAge: closeOffDepth === null ? null : column.age(closeOffDepth),
      lockInDepth: depthOf(lockInDensity(at)),
      remark: remarkOf(given),
    };
  },
});

const depthOfDensityRelation = relation({
  name: 'firn-depth-of-density',
  title: 'Depth at which dry firn has a density',
  page: 'firn',
  source: paper,
  takes: { density: densityOf('density looked for'), ...site },
  gives: { depth: { symbol: 'z', what: 'depth', unit: 'm' }, age: columnGives.age, ...remarkGiven },
  compute: ({ density, ...given }) => {
    const column = columnOf(given);
    const found = column.depthOfDensity(density);
    return { depth: found, age: column.age(found), remark: remarkOf(given) };
  },
});

const depthOfAgeRelation = relation({
  name: 'firn-depth-of-age',
  title: 'Depth at which dry firn has an age',
  page: 'firn',
  source: paper,
  takes: {
    age: numberTaken('t', 'age looked for', 'a', [0, 1e5], 'firn alone: below it the ice flows'),
    ...site,
  },
  gives: { depth: { symbol: 'z', what: 'depth', unit: 'm' }, density: columnGives.density, ...remarkGiven },
  compute: ({ age, ...given }) => {
    const column = columnOf(given);
    const found = column.depthOfAge(age);
    return { depth: found, density: column.density(found), remark: remarkOf(given) };
  },
});

const depthOfWaterRelation = relation({
  name: 'firn-depth-of-water',
  title: 'Depth above which dry firn holds so much water',
  page: 'firn',
  source: paper,
  takes: {
    water: numberTaken('w', 'water equivalent above', 'm w.e.', [0, 5000], 'no ice sheet is thicker'),
    ...site,
  },
  gives: { depth: { symbol: 'z', what: 'depth', unit: 'm' }, density: columnGives.density, ...remarkGiven },
  compute: ({ water, ...given }) => {
    const column = columnOf(given);
    const found = column.depthOfWater(water);
    return { depth: found, density: column.density(found), remark: remarkOf(given) };
  },
});

const strainRelation = relation({
  name: 'firn-strain-rate',
  title: 'Strain rate of dry firn, and its sinking',
  page: 'firn',
  source: `Conservation of mass, rates of ${paper}`,
  takes: { depth, ...site },
  gives: {
    strainRate: { symbol: 'ε̇', what: 'relative change of length a year', unit: '1/a' },
    sinking: { symbol: '', what: 'sinking away from the surface', unit: 'm/a' },
    ...remarkGiven,
  },
  compute: ({ depth: h, ...given }) => {
    const column = columnOf(given);
    return {
      strainRate: firnStrainRate(column, h),
      sinking: sinkingRate(column, h),
      remark: remarkOf(given),
    };
  },
});

const fitRelation = relation({
  name: 'fit-herron-langway',
  title: 'Herron & Langway fitted to measured densities',
  page: 'firn',
  source: `${paper}; weighted least squares (Levenberg 1944, Marquardt 1963)`,
  takes: {
    tops: numbers('', 'top of each layer', 'm', [0, 500]),
    bottoms: numbers('', 'bottom of each layer', 'm', [0, 500]),
    densities: numbers('ρ', 'mean density of each layer', 'kg/m3', [50, 917]),
    densitySd: {
      ...numberTaken(
        'u_ρ',
        'standard uncertainty of each density, scatter of the firn in it',
        'kg/m3',
        [0.1, 200],
        'common practice',
      ),
      usual: 10,
    },
    ...site,
  },
  gives: {
    k0: { symbol: '', what: 'factor on the rate of the first stage', unit: '1' },
    k1: { symbol: '', what: 'factor on the rate of the second stage', unit: '1' },
    surfaceDensity: { symbol: 'ρ_0', what: 'surface density', unit: 'kg/m3' },
    k0Sd: { symbol: '', what: 'standard uncertainty of the first factor by the layers', unit: '1' },
    k1Sd: { symbol: '', what: 'standard uncertainty of the second factor by the layers', unit: '1' },
    surfaceDensitySd: { symbol: '', what: 'standard uncertainty of the surface density', unit: 'kg/m3' },
    rms: { symbol: '', what: 'root mean square of measured less modelled', unit: 'kg/m3' },
    chiSquare: { symbol: 'χ²/ν', what: 'reduced chi square', unit: '1' },
  },
  compute: ({ tops, bottoms, densities, densitySd, ...given }) => {
    const layers = densities.map(
      (density, i): FirnLayer => ({
        top: tops[i] ?? Number.NaN,
        bottom: bottoms[i] ?? Number.NaN,
        density,
        sd: densitySd,
        sharedShare: 0,
      }),
    );
    const fit = fitHerronLangway(siteOf(given), layers);
    const [k0, k1, surface] = fit.parameters;
    return {
      k0: k0!.value,
      k1: k1!.value,
      surfaceDensity: surface!.value,
      k0Sd: k0!.randomSd,
      k1Sd: k1!.randomSd,
      surfaceDensitySd: surface!.randomSd,
      rms: fit.rms,
      chiSquare: fit.reducedChiSquare,
    };
  },
});

export const herronLangwayRelations: readonly Relation[] = [
  herronLangwayRelation,
  depthOfDensityRelation,
  depthOfAgeRelation,
  depthOfWaterRelation,
  strainRelation,
  fitRelation,
];
