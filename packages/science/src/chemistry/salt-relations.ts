import { seawater } from '../constants/seawater.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { contentAsked, correlationAsked, sdAsked } from './asked.ts';
import { crustElements, crustRatio, elementOfOxide } from './crust-content.ts';
import { enrichmentFactor } from './enrichment.ts';
import { nonSeaSalt } from './non-sea-salt.ts';
import { seaSaltAndDust } from './sea-salt-and-dust.ts';
import { ratioUnits, seaSaltIons, seaSaltRatio, seaSalts } from './sea-salt-ratio.ts';

const millero = seawater.Na.source;
const exact = (value: number) => ({ value, sd: 0 });

const massRatio = (symbol: string, what: string) => numberTaken(symbol, what, '1', [0, 1e6], 'by definition');
const salt = {
  kind: 'choice',
  symbol: 'k',
  what: 'composition of the sea salt: reference sea water, or after mirabilite was lost (sulphate only)',
  options: seaSalts,
} as const;
const [, ...otherIons] = seaSaltIons;

const bothParts = {
  nonSeaSalt: {
    symbol: 'nss X',
    what: 'part that did not come with sea salt; kept where it is below zero',
    unit: 'ug/kg',
  },
  seaSalt: { symbol: 'ss X', what: 'sea-salt part', unit: 'ug/kg' },
} as const;

export const saltRelations: readonly Relation[] = [
  relation({
    name: 'sea-salt-ratio',
    title: 'Ratio of two ions in sea salt, by mass, mole or charge',
    page: 'sea-salt',
    source: millero,
    takes: {
      ion: { kind: 'choice', symbol: 'X', what: 'ion', options: otherIons },
      tracer: { kind: 'choice', symbol: 'Na', what: 'ion that traces the salt', options: seaSaltIons },
      by: { kind: 'choice', symbol: 'unit', what: 'by mass, mole or charge', options: ratioUnits },
      salt,
    },
    gives: { ratio: { symbol: 'k', what: 'ratio of the two in sea salt', unit: '1' } },
    compute: ({ ion, tracer, by, salt: of }) => ({ ratio: seaSaltRatio(ion, tracer, by, of).value }),
    own: ({ ion, tracer, by, salt: of }) => ({ ratio: seaSaltRatio(ion, tracer, by, of).sd }),
  }),
  relation({
    name: 'non-sea-salt',
    title: 'Part of an ion that did not come with sea salt, by sodium',
    page: 'sea-salt',
    source: millero,
    takes: {
      ion: {
        kind: 'choice',
        symbol: 'X',
        what: 'ion',
        options: ['SO4', ...otherIons.filter((one) => one !== 'SO4')],
      },
      content: contentAsked('X', 'content of the ion'),
      sodium: contentAsked('Na', 'sodium'),
      salt,
    },
    gives: bothParts,
    compute: ({ ion, content: x, sodium, salt: of }) => {
      const parts = nonSeaSalt(exact(x), exact(sodium), exact(seaSaltRatio(ion, 'Na', 'g/g', of).value));
      return { nonSeaSalt: parts.nonSeaSalt.value, seaSalt: parts.seaSalt.value };
    },
    own: ({ ion, sodium, salt: of }) => {
      const sd = Math.abs(sodium) * seaSaltRatio(ion, 'Na', 'g/g', of).sd;
      return { nonSeaSalt: sd, seaSalt: sd };
    },
  }),
  relation({
    name: 'non-sea-salt-own-ratio',
    title: 'Part of an ion that did not come with sea salt, by a ratio and a correlation of your own',
    page: 'sea-salt',
    source: 'subtraction by a tracer; JCGM 100:2008, eq. (13)',
    takes: {
      content: contentAsked('X', 'content of the ion'),
      tracerContent: contentAsked('Na', 'tracer of sea salt'),
      ratio: massRatio('k', 'ion to tracer in sea salt, by mass'),
      contentSd: sdAsked('u(X)', 'the ion', 'ug/kg'),
      tracerSd: sdAsked('u(Na)', 'the tracer', 'ug/kg'),
      correlation: correlationAsked,
    },
    gives: {
      ...bothParts,
      sd: {
        symbol: 'u',
        what: 'standard uncertainty of the non-sea-salt part with the correlation; nothing where no error was given with it',
        unit: 'ug/kg',
      },
    },
    compute: ({ content: x, tracerContent, ratio, contentSd, tracerSd, correlation }) => {
      const parts = nonSeaSalt(
        { value: x, sd: contentSd },
        { value: tracerContent, sd: tracerSd },
        exact(ratio),
        correlation * contentSd * tracerSd,
      );
      return {
        nonSeaSalt: parts.nonSeaSalt.value,
        seaSalt: parts.seaSalt.value,
        sd: contentSd === 0 && tracerSd === 0 ? null : parts.nonSeaSalt.sd,
      };
    },
  }),
  relation({
    name: 'sea-salt-and-dust',
    title: 'Sea-salt sodium and dust calcium of a sample that has both',
    page: 'sea-salt',
    source:
      'R. Röthlisberger et al. 2002, Geophys. Res. Lett. 29 (20), 1963, doi:10.1029/2002GL015186 (from memory)',
    takes: {
      calcium: contentAsked('Ca', 'calcium'),
      sodium: contentAsked('Na', 'sodium'),
      marine: {
        ...massRatio('R_m', 'calcium to sodium in sea salt, by mass'),
        usual: seaSaltRatio('Ca').value,
      },
      dust: {
        ...massRatio('R_t', 'calcium to sodium in dust, by mass'),
        usual: seawater.dustCalciumToSodium.value,
      },
    },
    gives: {
      dustCalcium: { symbol: 'nss Ca', what: 'dust calcium', unit: 'ug/kg' },
      seaSaltSodium: { symbol: 'ss Na', what: 'sea-salt sodium', unit: 'ug/kg' },
      dustSodium: { symbol: 'nss Na', what: 'dust sodium', unit: 'ug/kg' },
      seaSaltCalcium: { symbol: 'ss Ca', what: 'sea-salt calcium', unit: 'ug/kg' },
    },
    compute: ({ calcium, sodium, marine, dust }) => {
      const split = seaSaltAndDust(exact(calcium), exact(sodium), exact(marine), exact(dust));
      return {
        dustCalcium: split.dustCalcium.value,
        seaSaltSodium: split.seaSaltSodium.value,
        dustSodium: sodium - split.seaSaltSodium.value,
        seaSaltCalcium: calcium - split.dustCalcium.value,
      };
    },
  }),
  relation({
    name: 'oxide-to-element',
    title: 'Content of the element of an oxide',
    page: 'enrichment',
    source: 'stoichiometry; IUPAC atomic weights',
    takes: {
      oxide: { kind: 'text', symbol: 'M', what: 'formula of the oxide', example: 'Al2O3' },
      share: numberTaken('w', 'share of the oxide in the mass', '%', [0, 100], 'by definition'),
    },
    gives: { content: { symbol: 'c', what: 'content of the element', unit: 'mg/kg' } },
    compute: ({ oxide, share }) => ({ content: elementOfOxide(oxide, share) }),
  }),
  relation({
    name: 'crust-ratio',
    title: 'Ratio of two elements in the upper continental crust',
    page: 'enrichment',
    source:
      'R. L. Rudnick, S. Gao 2003, Treatise on Geochemistry 3, 1-64, doi:10.1016/B0-08-043751-6/03016-4',
    takes: {
      element: { kind: 'choice', symbol: 'X', what: 'element', options: crustElements },
      reference: {
        kind: 'choice',
        symbol: 'R',
        what: 'element that traces dust',
        options: ['Al', ...crustElements.filter((one) => one !== 'Al')],
      },
    },
    gives: { ratio: { symbol: '(X/R)_crust', what: 'ratio by mass', unit: '1' } },
    compute: ({ element, reference }) => ({ ratio: crustRatio(element, reference) }),
  }),
  relation({
    name: 'crust-enrichment',
    title: 'Enrichment of an element against the upper continental crust',
    page: 'enrichment',
    source:
      'W. H. Zoller, E. S. Gladney, R. A. Duce 1974, Science 183, 198-200 (from memory); R. L. Rudnick, S. Gao 2003',
    takes: {
      element: {
        kind: 'choice',
        symbol: 'X',
        what: 'element',
        options: ['Pb', ...crustElements.filter((one) => one !== 'Pb')],
      },
      reference: {
        kind: 'choice',
        symbol: 'R',
        what: 'element that has no other source than dust',
        options: ['Al', ...crustElements.filter((one) => one !== 'Al')],
      },
      content: contentAsked('X', 'content of the element'),
      referenceContent: {
        ...contentAsked('R', 'content of the reference element'),
        range: [1e-12, 1e9],
        because: 'it must have been found',
      },
    },
    gives: { enrichment: { symbol: 'EF', what: 'enrichment factor, 1 for crust', unit: '1' } },
    compute: ({ element, reference, content: x, referenceContent }) => ({
      enrichment: enrichmentFactor(exact(x), exact(referenceContent), exact(crustRatio(element, reference)))
        .value,
    }),
  }),
  relation({
    name: 'sea-salt-enrichment',
    title: 'Enrichment of an ion against sea salt',
    page: 'enrichment',
    source: millero,
    takes: {
      ion: { kind: 'choice', symbol: 'X', what: 'ion', options: otherIons },
      content: contentAsked('X', 'content of the ion'),
      sodium: { ...contentAsked('Na', 'sodium'), range: [1e-12, 1e9], because: 'it must have been found' },
      salt,
    },
    gives: { enrichment: { symbol: 'EF_ss', what: 'enrichment factor, 1 for sea salt', unit: '1' } },
    compute: ({ ion, content: x, sodium, salt: of }) => ({
      enrichment: enrichmentFactor(exact(x), exact(sodium), exact(seaSaltRatio(ion, 'Na', 'g/g', of).value))
        .value,
    }),
    own: ({ ion, content: x, sodium, salt: of }) => ({
      enrichment: enrichmentFactor(exact(x), exact(sodium), seaSaltRatio(ion, 'Na', 'g/g', of)).sd,
    }),
  }),
];
