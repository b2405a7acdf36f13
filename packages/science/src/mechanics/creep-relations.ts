import { universal } from '../constants/universal.ts';
import { numberTaken, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { creepVariantAsked, gravityAsked, iceTemperatureAsked, layersAsked } from './asked.ts';
import { creepParameter } from './creep-parameter.ts';
import { glenStrainRate } from './glen.ts';
import { overburdenAll } from './overburden.ts';

export const creepParameterRelation = relation({
  name: 'creep-parameter',
  title: 'Creep parameter of ice',
  page: 'creep-and-closure',
  source:
    'Cuffey & Paterson 2010, The Physics of Glaciers, 4th ed., Table 3.4 or eq. 3.35; Paterson & Budd 1982 (numbers as quoted)',
  takes: {
    temperature: iceTemperatureAsked,
    pressure: {
      ...numberTaken(
        'P',
        'pressure of the ice above, which lowers the melting point',
        'MPa',
        [0, 50],
        'what ice sheets have',
      ),
      usual: 0,
    },
    variant: creepVariantAsked,
  },
  gives: { parameter: { symbol: 'A', what: 'creep parameter for n = 3', unit: '1/s/Pa3' } },
  compute: ({ temperature, pressure, variant }) => ({
    parameter: creepParameter(inKelvin(temperature), variant, pressure * 1e6),
  }),
});

export const glenRelation = relation({
  name: 'glen-strain-rate',
  title: 'Strain rate of ice by its creep',
  page: 'creep-and-closure',
  source: 'Glen 1955, Proc. R. Soc. A 228, 519 (from memory), exponent 3',
  takes: {
    temperature: iceTemperatureAsked,
    stress: numberTaken(
      'τ',
      'effective shear stress',
      'kPa',
      [0, 10_000],
      'what the formula can bear; above some 200 kPa larger exponents are measured',
    ),
    variant: creepVariantAsked,
  },
  gives: { strainRate: { symbol: 'ε̇', what: 'strain rate', unit: '1/a' } },
  compute: ({ temperature, stress, variant }) => ({
    strainRate:
      glenStrainRate(creepParameter(inKelvin(temperature), variant), stress * 1000) *
      universal.julianYear.value,
  }),
});

export const overburdenRelation = relation({
  name: 'overburden',
  title: 'Pressure of the ice above a depth, by layers',
  page: 'creep-and-closure',
  source: 'masses above added up',
  takes: {
    ...layersAsked,
    depth: numberTaken(
      'z',
      'depth; below the last layer its density holds on',
      'm',
      [0.01, 5000],
      'no ice sheet is thicker',
    ),
    gravity: gravityAsked,
  },
  gives: {
    pressure: { symbol: 'p', what: 'pressure of the ice above', unit: 'kPa' },
    meanDensity: { symbol: 'ρ̄', what: 'mean density above', unit: 'kg/m3' },
  },
  compute: ({ bottoms, densities, depth, gravity }) => {
    const pressure = overburdenAll(bottoms, densities, [depth], gravity, new Float64Array(1))[0];
    return { pressure: pressure / 1000, meanDensity: pressure / gravity / depth };
  },
});
