import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';
import { chemistryRelations } from './relations.ts';

/** Each relation with inputs, and some of its results to their digits. */
const calls: readonly (readonly [
  string,
  Readonly<Record<string, string>>,
  Readonly<Record<string, unknown>>,
])[] = [
  ['sea-salt-ratio', { ion: 'SO4', by: 'eq/eq' }, { ratio: 0.120423 }],
  [
    'non-sea-salt',
    { content: '85(4) ug/kg', sodium: '40(2) ug/kg' },
    { nonSeaSalt: 74.937, seaSalt: 10.063 },
  ],
  [
    'non-sea-salt-own-ratio',
    {
      content: '85 ug/kg',
      tracerContent: '40 ug/kg',
      ratio: '0.07',
      contentSd: '4 ug/kg',
      tracerSd: '2 ug/kg',
      correlation: '0.5',
    },
    { nonSeaSalt: 82.2, sd: 3.93187 },
  ],
  [
    'sea-salt-and-dust',
    { calcium: '12 ug/kg', sodium: '0.04 mg/kg' },
    { dustCalcium: 10.70093, seaSaltSodium: 33.98824 },
  ],
  ['oxide-to-element', { oxide: 'Al2O3', share: '15.4 %' }, { content: 81505.6 }],
  ['crust-ratio', { element: 'Fe' }, { ratio: 0.480659 }],
  ['crust-enrichment', { content: '25 ng/kg', referenceContent: '1.2 ug/kg' }, { enrichment: 99.884 }],
  ['sea-salt-enrichment', { ion: 'Mg', content: '6 ug/kg', sodium: '40 ug/kg' }, { enrichment: 1.25979 }],
  ['ion-properties', { ion: 'MSA' }, { formula: 'CH3SO3', molarMass: 95.092, charge: -1 }],
  ['ion-from-mass', { ion: 'SO4', content: '96.056 ug/kg' }, { amount: 1, charge: 2 }],
  ['ion-from-moles', { ion: 'Ca', content: '2 umol/kg' }, { mass: 80.156, charge: 4 }],
  ['ion-from-equivalents', { ion: 'Mg', content: '3 ueq/kg' }, { mass: 36.4575, amount: 1.5 }],
  [
    'ion-balance',
    { sample: 'Na 40(2), NH4 8, K 3, Mg 5.5, Ca 12, Cl 75, NO3 60, SO4 85, MSA 4, Br <0.8' },
    { cations: 3.311532, hydrogen: 1.583669, hydrogenMost: 1.593681, ph: 5.80034, toSum: -19.2972 },
  ],
  [
    'ion-balance',
    { sample: 'Ca 2.0(1), SO4 3.5(2)', unit: 'ueq/kg' },
    { cations: 2, anions: 3.5, hydrogen: 1.5 },
  ],
  ['hydrogen-of-ph', { ph: '5.3' }, { hydrogen: 5.01187 }],
  ['ph-of-hydrogen', { hydrogen: '5 ueq/l' }, { ph: 5.30103 }],
  ['isotope-ratio', { isotope: '18O', delta: '-30 ‰' }, { ratio: 1.945044e-3 }],
  ['isotope-delta', { isotope: '2H', ratio: '155.76 [ppm]' }, { delta: 0 }],
  ['reference-water', { water: 'GISP2', isotope: '2H' }, { delta: -258.3 }],
  ['vsmow-slap', { sample: '-33.2 ‰', upper: '0.15 ‰', lower: '-55.05 ‰' }, { delta: -33.53125 }],
  [
    'vsmow-slap',
    { isotope: '2H', scale: 'VSMOW2-SLAP2', sample: '-255 ‰', upper: '0.8 ‰', lower: '-424.9 ‰' },
    { delta: -256.881607, share: 0.600893 },
  ],
  [
    'two-point-scale',
    { sample: '-255 ‰', upper: '0.8 ‰', lower: '-424.9 ‰', upperAgreed: '0 ‰', lowerAgreed: '-428 ‰' },
    { delta: -257.182053 },
  ],
  [
    'deuterium-excess',
    { d2H: '-258.2 ‰', d18O: '-33.5 ‰', d2HSd: '0.5 ‰', d18OSd: '0.1 ‰', correlation: '0.72' },
    { excess: 9.8, sd: 0.560357 },
  ],
  ['logarithmic-deuterium-excess', { d2H: '-390 ‰', d18O: '-50 ‰' }, { excess: 15.1415, sd: null }],
  ['oxygen-17-excess', { d17O: '-17.8 ‰', d18O: '-33.5 ‰' }, { excess: 30.7362 }],
  [
    'blank-limits',
    { blanks: '0.12 0.15 0.09 0.14 0.11 0.13 0.10 0.12 0.16 0.08 ug/kg' },
    { detection: 0.0774597, reading: 0.19746 },
  ],
  [
    'calibrated-limit',
    { blankSd: '0.02', intercept: '0.1', interceptSd: '0.01', slope: '0.5 kg/ug', slopeSd: '0.05 kg/ug' },
    { detection: 0.146969 },
  ],
  [
    'counting-limits',
    { blank: '0', known: 'well known' },
    { critical: 0, detection: 2.99573, by: 'exact Poisson' },
  ],
  ['counting-limits', { blank: '100' }, { critical: 23.2617, detection: 49.229, by: 'Currie 1968' }],
  ['counting-limits', { blank: '100', method: 'Currie 1968, working formulas' }, { detection: 49.236 }],
  [
    'counting-limits',
    { blank: '4', method: 'exact Poisson', beta: '0.1' },
    { critical: 7, detection: 13.8342 },
  ],
  ['counting-limits', { blank: '4', method: 'Currie 1968' }, { critical: 4.65235 }],
  [
    'inverse-calibration',
    { contents: '0 1 2 5 10 ug/kg', readings: '0.02 1.05 2.01 5.1 9.95', reading: '3.4', replicates: '3' },
    { content: 3.372612, place: 'within the standards' },
  ],
  [
    'weighted-calibration',
    {
      contents: '0 1 2 5 10 ug/kg',
      readings: '0.02 1.05 2.01 5.1 9.95',
      sds: '0.01 0.02 0.03 0.07 0.11',
      reading: '3.4',
      replicates: '3',
      readingSd: '0.05',
      scatter: 'stated',
    },
    { content: 3.367682 },
  ],
  ['kaplan-meier', { values: '<2 2 1' }, { mean: 4 / 3, median: 1, detected: [2, 1] }],
  ['order-statistics', { values: '<1 <1 2 3 5' }, { median: 2 }],
  [
    'censored-likelihood',
    { values: '1 2 4 8', confidence: '90 %' },
    { mu: 1.5 * Math.LN2, median: Math.sqrt(8) },
  ],
  ['censored-bounds', { values: '<1 1.7 <0.9 3.4' }, { sumLeast: 5.1, sumMost: 7, halfLimits: 1.5125 }],
];

describe('relations of chemistry, called by name', () => {
  for (const [name, written, wanted] of calls)
    it(`${name} ${Object.entries(written)
      .map((pair) => pair.join(' '))
      .join(', ')}`, () => {
      const results = called(name, written);
      for (const [key, value] of Object.entries(wanted)) {
        const found = results[key]!.value;
        if (typeof value === 'number')
          expect(Math.abs(Number(found) - value)).toBeLessThan(1e-5 * Math.abs(value) + 1e-9);
        else expect(found).toEqual(value);
      }
    });

  it('each one is called here', () => {
    const names = new Set(calls.map(([name]) => name));
    expect(chemistryRelations.map(({ name }) => name).filter((name) => !names.has(name))).toEqual([]);
  });

  it('errors that were given come through: nss sulphate 4.03 ug/kg, 0.50 of it the sodium’s', () => {
    const { nonSeaSalt } = called('non-sea-salt', { content: '85(4) ug/kg', sodium: '40(2) ug/kg' });
    expect(nonSeaSalt!.sd).toBeCloseTo(4.031521, 5);
    expect(nonSeaSalt!.parts.find(({ from }) => from === 'sodium')!.sd).toBeCloseTo(0.50315, 4);
  });

  it('a salt without mirabilite brings the error of its ratio', () => {
    const { seaSalt } = called('non-sea-salt', {
      content: '85 ug/kg',
      sodium: '40 ug/kg',
      salt: 'mirabilite lost',
    });
    expect(seaSalt!.value).toBeCloseTo(2.8, 10);
    expect(seaSalt!.sd).toBeCloseTo(0.58, 10);
  });

  it('successors of the first waters bring their own errors', () => {
    const readings = { isotope: '2H', sample: '-255 ‰', upper: '0.8 ‰', lower: '-424.9 ‰' };
    expect(called('vsmow-slap', readings).delta!.sd).toBe(0);
    expect(called('vsmow-slap', { ...readings, scale: 'VSMOW2-SLAP2' }).delta!.sd).toBeCloseTo(
      0.3 * Math.hypot(0.399107, 0.600893),
      5,
    );
  });

  it('a content brings the error that the scatter about the line makes', () => {
    const written = { contents: '0 1 2 5 10 ug/kg', readings: '0.02 1.05 2.01 5.1 9.95', reading: '3.4' };
    expect(called('inverse-calibration', { ...written, replicates: '3' }).content!.sd).toBeCloseTo(
      0.04179203,
      8,
    );
    const sds = { sds: '0.01 0.02 0.03 0.07 0.11', readingSd: '0.05', scatter: 'stated' };
    const { content } = called('weighted-calibration', { ...written, ...sds, replicates: '3' });
    expect(content!.sd).toBeCloseTo(0.0372252450634, 9);
  });

  it('working formulas hold at 5 % only', () => {
    const written = { blank: '9', method: 'Currie 1968, working formulas', alpha: '0.01' };
    expect(() => called('counting-limits', written)).toThrow(/risks are 0.01 and 0.05; allowed: 0.05 both/);
  });
});
