import { isotopes } from '../constants/isotopes.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { correlationAsked, sdAsked } from './asked.ts';
import { deuteriumExcess } from './deuterium-excess.ts';
import { heavyIsotopes, isotopeDelta, isotopeRatio } from './isotope-ratio.ts';
import { logarithmicDeuteriumExcess } from './logarithmic-deuterium-excess.ts';
import type { Measured } from './measured.ts';
import { oxygen17Excess } from './oxygen-17-excess.ts';
import { referenceDelta, referenceWaters } from './reference-waters.ts';
import { agreedDeltas, twoPointScale, waterScales } from './two-point-scale.ts';

const exact = (value: number) => ({ value, sd: 0 });
const delta = (symbol: string, what: string) =>
  numberTaken(symbol, what, '[ppth]', [-999.999, 1e5], 'less than nothing of an isotope there is not');
const isotope = { kind: 'choice', symbol: 'i', what: 'heavy isotope', options: heavyIsotopes } as const;
const waterIsotope = { ...isotope, options: ['18O', '2H'] } as const;

/** An excess of two deltas of one vial. */
const excess = (
  about: { name: string; title: string; source: string; symbol: string; unit: string },
  [first, second]: readonly ['2H' | '17O', '18O'],
  of: (first: Measured, second: Measured, covariance: number) => Measured,
): Relation =>
  relation({
    name: about.name,
    title: about.title,
    page: 'water-isotopes',
    source: about.source,
    takes: {
      [`d${first}`]: delta(`δ${first}`, `delta ${first}`),
      [`d${second}`]: delta(`δ${second}`, `delta ${second}`),
      [`d${first}Sd`]: sdAsked(`u(δ${first})`, `delta ${first}`, '[ppth]'),
      [`d${second}Sd`]: sdAsked(`u(δ${second})`, `delta ${second}`, '[ppth]'),
      correlation: correlationAsked,
    },
    gives: {
      excess: { symbol: about.symbol, what: 'excess', unit: about.unit },
      sd: {
        symbol: 'u',
        what: 'its standard uncertainty with the correlation; nothing where no error was given with it',
        unit: about.unit,
      },
    },
    compute: (given) => {
      const number = (name: string): number => Number(given[name]);
      const [a, b] = [
        { value: number(`d${first}`), sd: number(`d${first}Sd`) },
        { value: number(`d${second}`), sd: number(`d${second}Sd`) },
      ];
      const found = of(a, b, number('correlation') * a.sd * b.sd);
      return { excess: found.value, sd: a.sd === 0 && b.sd === 0 ? null : found.sd };
    },
  });

export const isotopeRelations: readonly Relation[] = [
  relation({
    name: 'isotope-ratio',
    title: 'Ratio of heavy to light isotope of a delta',
    page: 'water-isotopes',
    source: `${isotopes.vsmow2H.source}; ${isotopes.vsmow18O.source}; ${isotopes.vsmow17O.source} (from memory)`,
    takes: { isotope, delta: delta('δ', 'delta against VSMOW') },
    gives: { ratio: { symbol: 'R', what: 'heavy to light atoms', unit: '1' } },
    compute: (given) => ({ ratio: isotopeRatio(exact(given.delta), given.isotope).value }),
    own: (given) => ({ ratio: isotopeRatio(exact(given.delta), given.isotope).sd }),
  }),
  relation({
    name: 'isotope-delta',
    title: 'Delta of a ratio of heavy to light isotope',
    page: 'water-isotopes',
    source: `${isotopes.vsmow2H.source}; ${isotopes.vsmow18O.source}; ${isotopes.vsmow17O.source} (from memory)`,
    takes: {
      isotope,
      ratio: numberTaken('R', 'heavy to light atoms', '1', [0, 1], 'of water'),
    },
    gives: { delta: { symbol: 'δ', what: 'delta against VSMOW', unit: '[ppth]' } },
    compute: (given) => ({ delta: isotopeDelta(exact(given.ratio), given.isotope).value }),
    own: (given) => ({ delta: isotopeDelta(exact(given.ratio), given.isotope).sd }),
  }),
  relation({
    name: 'reference-water',
    title: 'Agreed delta of a reference water',
    page: 'water-isotopes',
    source: `${isotopes.slapDelta2H.source}; ${isotopes.slap2Delta2H.source}; ${isotopes.gispDelta2H.source}`,
    takes: {
      water: { kind: 'choice', symbol: 'w', what: 'reference water', options: referenceWaters },
      isotope: { ...waterIsotope, options: ['2H', '18O'] },
    },
    gives: { delta: { symbol: 'δ', what: 'agreed delta against VSMOW', unit: '[ppth]' } },
    compute: (given) => ({ delta: referenceDelta(given.water, given.isotope).value }),
    own: (given) => ({ delta: referenceDelta(given.water, given.isotope).sd }),
  }),
  relation({
    name: 'vsmow-slap',
    title: 'Delta on the scale of VSMOW and SLAP, from readings of both',
    page: 'water-isotopes',
    source: 'R. Gonfiantini 1978, Nature 271, 534-536; IUPAC 1993 (from memory)',
    takes: {
      isotope: waterIsotope,
      scale: { kind: 'choice', symbol: 's', what: 'waters that were measured', options: waterScales },
      sample: delta('m', 'reading of the sample'),
      upper: delta('m_V', 'reading of VSMOW or VSMOW2'),
      lower: delta('m_S', 'reading of SLAP or SLAP2'),
    },
    gives: {
      delta: { symbol: 'δ', what: 'delta on the scale', unit: '[ppth]' },
      share: {
        symbol: 'f',
        what: 'place between both waters: 0 at VSMOW, 1 at SLAP, outside extrapolated',
        unit: '1',
      },
    },
    compute: (given) => {
      const agreed = agreedDeltas(given.isotope, given.scale);
      const { value, share } = twoPointScale(
        exact(given.sample),
        { agreed: agreed.upper, measured: exact(given.upper) },
        { agreed: agreed.lower, measured: exact(given.lower) },
      );
      return { delta: value, share };
    },
    own: (given, { share }) => {
      const { upper, lower } = agreedDeltas(given.isotope, given.scale);
      return { delta: Math.hypot((1 - Number(share)) * upper.sd, Number(share) * lower.sd) };
    },
  }),
  relation({
    name: 'two-point-scale',
    title: 'Delta on a scale that two waters of a laboratory fix',
    page: 'water-isotopes',
    source: 'R. Gonfiantini 1978, Nature 271, 534-536 (from memory)',
    takes: {
      sample: delta('m', 'reading of the sample'),
      upper: delta('m_1', 'reading of the first water'),
      lower: delta('m_2', 'reading of the second water'),
      upperAgreed: delta('a_1', 'agreed delta of the first water'),
      lowerAgreed: delta('a_2', 'agreed delta of the second water'),
    },
    gives: {
      delta: { symbol: 'δ', what: 'delta on the scale', unit: '[ppth]' },
      share: { symbol: 'f', what: 'place between both waters: 0 at the first, 1 at the second', unit: '1' },
    },
    compute: (given) => {
      const { value, share } = twoPointScale(
        exact(given.sample),
        { agreed: exact(given.upperAgreed), measured: exact(given.upper) },
        { agreed: exact(given.lowerAgreed), measured: exact(given.lower) },
      );
      return { delta: value, share };
    },
  }),
  excess(
    {
      name: 'deuterium-excess',
      title: 'Deuterium excess, δ2H - 8 δ18O',
      source: isotopes.meteoricSlope.source,
      symbol: 'd',
      unit: '[ppth]',
    },
    ['2H', '18O'],
    deuteriumExcess,
  ),
  excess(
    {
      name: 'logarithmic-deuterium-excess',
      title: 'Logarithmic deuterium excess',
      source: 'R. Uemura et al. 2012, Clim. Past 8, 1109-1125 (from memory)',
      symbol: 'd_ln',
      unit: '[ppth]',
    },
    ['2H', '18O'],
    logarithmicDeuteriumExcess,
  ),
  excess(
    {
      name: 'oxygen-17-excess',
      title: '17O excess in parts per million',
      source: `E. Barkan, B. Luz 2007, Rapid Commun. Mass Spectrom. 21, 2999-3005; ${isotopes.oxygen17Slope.source} (from memory)`,
      symbol: 'Δ17O',
      unit: '[ppm]',
    },
    ['17O', '18O'],
    oxygen17Excess,
  ),
];
