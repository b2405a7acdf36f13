import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { hydrogenOfPh, phOfHydrogen } from './acidity.ts';
import { contentAsked } from './asked.ts';
import { type AmountUnit, amountUnits, ionAmount } from './ion-amount.ts';
import { ionBalance } from './ion-balance.ts';
import { readIonSample } from './ion-sample.ts';
import { ionNames, ionProperties } from './ions.ts';

const weights = 'IUPAC atomic weights (constants/atomic weights); equivalents by charge in dilute water';
const ion = { kind: 'choice', symbol: 'X', what: 'ion', options: ionNames } as const;

const amounts = {
  'ug/kg': { key: 'mass', symbol: 'w', what: 'mass in a kilogram of sample' },
  'umol/kg': { key: 'amount', symbol: 'b', what: 'amount in a kilogram of sample' },
  'ueq/kg': { key: 'charge', symbol: 'c', what: 'charge in a kilogram of sample' },
} as const;

const conversion = (from: AmountUnit, name: string): Relation => {
  const others = amountUnits.filter((unit) => unit !== from);
  const { symbol, what } = amounts[from];
  return relation({
    name,
    title: `An ion in ${others.join(' and ')} from ${from}`,
    page: 'ion-balance',
    source: weights,
    takes: {
      ion,
      content: contentAsked(symbol, what, from),
    },
    gives: Object.fromEntries(
      others.map((unit) => [
        amounts[unit].key,
        { symbol: amounts[unit].symbol, what: amounts[unit].what, unit },
      ]),
    ),
    compute: (given) =>
      Object.fromEntries(
        others.map((unit) => [amounts[unit].key, ionAmount(given.content, given.ion, from, unit)]),
      ),
  });
};

export const ionRelations: readonly Relation[] = [
  relation({
    name: 'ion-properties',
    title: 'Molar mass, charge and mass per equivalent of an ion',
    page: 'ion-balance',
    source: weights,
    takes: { ion },
    gives: {
      formula: { symbol: 'X', what: 'formula', unit: '' },
      molarMass: { symbol: 'M', what: 'molar mass', unit: 'g/mol' },
      charge: { symbol: 'z', what: 'charge', unit: '1' },
      perEquivalent: { symbol: 'M/|z|', what: 'mass per equivalent', unit: 'g/eq' },
    },
    compute: (given) => ({ ...ionProperties(given.ion) }),
  }),
  conversion('ug/kg', 'ion-from-mass'),
  conversion('umol/kg', 'ion-from-moles'),
  conversion('ueq/kg', 'ion-from-equivalents'),
  relation({
    name: 'ion-balance',
    title: 'Ion balance of a sample, the hydrogen ion that closes it, and both conventions of the imbalance',
    page: 'ion-balance',
    source: `electroneutrality; ${weights}; errors by JCGM 100:2008, eq. (13)`,
    takes: {
      sample: {
        kind: 'text',
        symbol: 'X',
        what: `ions of the sample, with their standard uncertainties; known are ${ionNames.join(' ')}`,
        example: 'Na 40(2), NH4 8, Ca 12(1), Cl 75(3), NO3 60, SO4 85(4), MSA <0.5',
      },
      unit: { kind: 'choice', symbol: '', what: 'unit of all of them', options: amountUnits },
    },
    gives: {
      cations: { symbol: 'C', what: 'cations', unit: 'ueq/kg' },
      anions: { symbol: 'A', what: 'anions', unit: 'ueq/kg' },
      hydrogen: { symbol: 'H', what: 'hydrogen ion that closes the balance, A - C', unit: 'ueq/kg' },
      hydrogenLeast: {
        symbol: 'H_min',
        what: 'the same with nondetected cations at their limits',
        unit: 'ueq/kg',
      },
      hydrogenMost: {
        symbol: 'H_max',
        what: 'the same with nondetected anions at their limits',
        unit: 'ueq/kg',
      },
      ph: { symbol: 'pH', what: 'pH of that hydrogen ion; nothing where bases are left over', unit: '1' },
      toSum: { symbol: 'I', what: 'imbalance, 100 (C - A)/(C + A)', unit: '%' },
      toMean: { symbol: 'I_½', what: 'imbalance, 100 (C - A)/[(C + A)/2]', unit: '%' },
    },
    compute: ({ sample, unit }) => {
      const balance = ionBalance(readIonSample(sample, unit));
      return {
        cations: balance.cations.value,
        anions: balance.anions.value,
        hydrogen: balance.hydrogen.value,
        hydrogenLeast: balance.hydrogenRange[0],
        hydrogenMost: balance.hydrogenRange[1],
        ph: balance.ph?.value ?? null,
        toSum: balance.toSum?.value ?? null,
        toMean: balance.toMean?.value ?? null,
      };
    },
    own: ({ sample, unit }) => {
      const { cations, anions, hydrogen, ph, toSum, toMean } = ionBalance(readIonSample(sample, unit));
      return {
        cations: cations.sd,
        anions: anions.sd,
        hydrogen: hydrogen.sd,
        ...(ph === null ? {} : { ph: ph.sd }),
        ...(toSum === null || toMean === null ? {} : { toSum: toSum.sd, toMean: toMean.sd }),
      };
    },
  }),
  relation({
    name: 'hydrogen-of-ph',
    title: 'Hydrogen ion of a pH',
    page: 'ion-balance',
    source: 'definition of pH, concentration for activity',
    takes: {
      ph: numberTaken('pH', 'pH', '1', [0, 14], 'dilute water'),
    },
    gives: { hydrogen: { symbol: 'H', what: 'hydrogen ion', unit: 'ueq/l' } },
    compute: ({ ph }) => ({ hydrogen: hydrogenOfPh(ph) }),
  }),
  relation({
    name: 'ph-of-hydrogen',
    title: 'pH of a hydrogen ion concentration',
    page: 'ion-balance',
    source: 'definition of pH, concentration for activity',
    takes: {
      hydrogen: numberTaken('H', 'hydrogen ion', 'ueq/l', [1e-8, 1e6], 'pH 0 to 14'),
    },
    gives: { ph: { symbol: 'pH', what: 'pH', unit: '1' } },
    compute: ({ hydrogen }) => ({ ph: phOfHydrogen(hydrogen) }),
  }),
];
