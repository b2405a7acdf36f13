import {
  agreedDeltas,
  blankLimits,
  type CensoredReading,
  calibrationLine,
  censoredLikelihood,
  crustRatio,
  currieWorkingLimits,
  deuteriumExcess,
  elementOfOxide,
  enrichmentFactor,
  halfLimitMeanDoNotUse,
  hydrogenOfPh,
  inverseCalibration,
  ionBalance,
  ionProperties,
  isotopeRatio,
  kaplanMeier,
  mustBeIon,
  mustBeSeaSaltIon,
  nonSeaSalt,
  orderStatistics,
  oxygen17Excess,
  referenceDelta,
  seaSaltAndDust,
  seaSaltRatio,
  slapRatio,
  twoPointScale,
} from '@firnbook/science/chemistry';
import type { Inputs, Section } from './evaluator.ts';

const number = (inputs: Inputs, name: string): number => Number(inputs[name]);
const numbers = (inputs: Inputs, name: string): readonly number[] => inputs[name] as readonly number[];
const exact = (value: number) => ({ value, sd: 0 });
const uncertain = (inputs: Inputs, name: string) => ({
  value: number(inputs, name),
  sd: Number(inputs[`u_${name}`] ?? 0),
});

/** "seawater.mass.Cl/Na": the two ions whose ratio is asked for. */
const ratioIn = (id: string, unit: 'g/g' | 'mol/mol' | 'eq/eq'): number => {
  const [ion = '', to = ''] = id.split('.').at(-1)?.split('/') ?? [];
  return seaSaltRatio(mustBeSeaSaltIon(ion), mustBeSeaSaltIon(to), unit).value;
};

const censoredIn = (inputs: Inputs): readonly CensoredReading[] => {
  const below = inputs.censored as readonly boolean[];
  return numbers(inputs, 'values').map((value, i) => ({ value, below: below[i] ?? false }));
};

export const section: Section = {
  section: '09_chem',
  evaluators: [
    { ids: /^seawater\.mass\./, compute: (_, id) => ratioIn(id, 'g/g') },
    { ids: /^seawater\.molar\./, compute: (_, id) => [ratioIn(id, 'mol/mol'), ratioIn(id, 'eq/eq')] },
    {
      ids: /^ion\./,
      compute: (_, id) => {
        const { molarMass, charge, perEquivalent } = ionProperties(mustBeIon(id.slice('ion.'.length)));
        return [molarMass, charge, perEquivalent];
      },
    },
    {
      ids: /^UCC\.ratio\./,
      compute: (_, id) => {
        const [element = '', to = ''] = id.slice('UCC.ratio.'.length).split('/');
        return crustRatio(element, to);
      },
    },
    {
      ids: /^UCC\.[A-Z][a-z]?$/,
      compute: (inputs) => elementOfOxide(String(inputs.oxide), number(inputs, 'wt_pct')),
    },
    {
      ids: /^nssSO4$/,
      compute: (inputs) =>
        nonSeaSalt(uncertain(inputs, 'SO4'), uncertain(inputs, 'Na'), exact(number(inputs, 'ratio')))
          .nonSeaSalt.value,
    },
    {
      ids: /^nssSO4\.u$/,
      compute: (inputs) =>
        nonSeaSalt(
          uncertain(inputs, 'SO4'),
          uncertain(inputs, 'Na'),
          seaSaltRatio('SO4'),
          number(inputs, 'cov'),
        ).nonSeaSalt.sd,
    },
    {
      ids: /^split\.CaNa$/,
      compute: (inputs) => {
        const [marine, dust] = [exact(number(inputs, 'Rm')), exact(number(inputs, 'Rt'))];
        const { dustCalcium, seaSaltSodium } = seaSaltAndDust(
          uncertain(inputs, 'Ca'),
          uncertain(inputs, 'Na'),
          marine,
          dust,
        );
        return {
          nssCa: dustCalcium.value,
          ssNa: seaSaltSodium.value,
          check_Ca: dustCalcium.value + marine.value * seaSaltSodium.value,
        };
      },
    },
    {
      ids: /^EF\.Pb$/,
      compute: (inputs) =>
        enrichmentFactor(uncertain(inputs, 'Pb'), uncertain(inputs, 'Al'), exact(crustRatio('Pb', 'Al')))
          .value,
    },
    {
      ids: /^EF\.ss\.Mg$/,
      compute: (inputs) =>
        enrichmentFactor(uncertain(inputs, 'Mg'), uncertain(inputs, 'Na'), seaSaltRatio('Mg')).value,
    },
    {
      ids: /^ionbalance$/,
      compute: (inputs) => {
        const sample = inputs.sample_ug_kg as Readonly<Record<string, number>>;
        const balance = ionBalance(
          Object.entries(sample).map(([name, value]) => ({ ion: mustBeIon(name), value, sd: 0 })),
        );
        return {
          cations: balance.cations.value,
          anions: balance.anions.value,
          H_calc: balance.hydrogen.value,
          pct_100: balance.toSum?.value ?? null,
          pct_half: balance.toMean?.value ?? null,
          pH: balance.ph?.value ?? null,
        };
      },
    },
    { ids: /^acidity\.pH/, compute: (inputs) => hydrogenOfPh(number(inputs, 'pH')) },
    {
      ids: /^delta\.R18$/,
      compute: (inputs) => 1e6 * isotopeRatio(uncertain(inputs, 'delta'), '18O').value,
    },
    {
      ids: /^vsmow-slap\./,
      compute: (inputs) =>
        twoPointScale(
          uncertain(inputs, 'measured'),
          { agreed: exact(0), measured: exact(number(inputs, 'vsmow_meas')) },
          { agreed: exact(number(inputs, 'slap_true')), measured: exact(number(inputs, 'slap_meas')) },
        ).value,
    },
    {
      ids: /^isotope\.\w+_d2H_(ref|exact)$/,
      compute: (_, id) => referenceDelta(id.replace(/^isotope\.(\w+?)_d2H.*/, '$1'), '2H').value,
    },
    {
      ids: /^isotope\.SLAP2_d18O$/,
      compute: () => {
        const { value, sd } = agreedDeltas('18O', 'VSMOW2-SLAP2').lower;
        return [value, sd];
      },
    },
    { ids: /^isotope\.SLAP_ratio$/, compute: () => ({ D: slapRatio('2H'), O18: slapRatio('18O') }) },
    {
      ids: /^dexcess$/,
      compute: (inputs) => deuteriumExcess(uncertain(inputs, 'd2H'), uncertain(inputs, 'd18O')).value,
    },
    {
      ids: /^17Oexcess$/,
      compute: (inputs) => oxygen17Excess(uncertain(inputs, 'd17O'), uncertain(inputs, 'd18O')).value,
    },
    {
      ids: /^LOD\.blank$/,
      compute: (inputs) => {
        const { mean, sd, detection, quantification, reading } = blankLimits(numbers(inputs, 'blanks'));
        return { mean, s: sd, LOD_3s: detection.value, LOQ_10s: quantification.value, xL: reading };
      },
    },
    {
      ids: /^LOD\.t99$/,
      compute: (inputs) => blankLimits(numbers(inputs, 'blanks'), 't, 99 %').detection.value,
    },
    {
      ids: /^currie\.B/,
      compute: (inputs) => {
        const [paired, known] = [
          currieWorkingLimits(number(inputs, 'B'), 'paired'),
          currieWorkingLimits(number(inputs, 'B'), 'well known'),
        ];
        return {
          LC_paired: paired.critical,
          LD_paired: paired.detection,
          LC_known: known.critical,
          LD_known: known.detection,
        };
      },
    },
    {
      ids: /^calibration\.inverse$/,
      compute: (inputs) => {
        const line = calibrationLine({ contents: numbers(inputs, 'x'), readings: numbers(inputs, 'y') });
        const content = inverseCalibration(line, {
          mean: number(inputs, 'y0'),
          replicates: number(inputs, 'm'),
        });
        return {
          a: line.intercept.value,
          b: line.slope.value,
          s: line.scatter,
          x0: content.value,
          u_x0: content.sd,
        };
      },
    },
    {
      ids: /^censored\./,
      compute: (inputs) => {
        const readings = censoredIn(inputs);
        const likely = censoredLikelihood(readings);
        const { intercept, slope, mean, sd, median } = orderStatistics(readings);
        return {
          MLE: {
            mu: likely.mu.value,
            sigma: likely.sigma.value,
            mean: likely.mean.value,
            median: likely.median.value,
            sd: likely.sd.value,
          },
          ROS: { intercept, slope, mean, sd, median },
          KM_mean: kaplanMeier(readings).mean,
          half_DL_mean: halfLimitMeanDoNotUse(readings),
        };
      },
    },
  ],
  not: [],
};
