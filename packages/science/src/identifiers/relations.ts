import type { Relation } from '../relations/relation.ts';
import { relation } from '../relations/relation.ts';
import { containerCategories, containerCheck, readContainer } from './iso6346.ts';
import { canBeChecked, checkCharacters, checkSystems, hasRightCheck } from './iso7064.ts';

const containerRelation = relation({
  name: 'container-number',
  title: 'Check digit of a freight container’s number',
  page: 'identifiers',
  source: 'ISO 6346:1995, annex A (from public descriptions)',
  takes: {
    code: {
      kind: 'text',
      symbol: '',
      what: 'number as it is marked, with or without its check digit; capital letters, no spaces',
      example: 'CSQU305438',
    },
  },
  gives: {
    full: { symbol: '', what: 'number with its check digit', unit: '' },
    sum: { symbol: 'S', what: 'weighted sum', unit: '1' },
    remainder: { symbol: 'S mod 11', what: 'remainder by 11', unit: '1' },
    category: { symbol: '', what: 'kind of equipment', unit: '' },
    remark: { symbol: '', what: 'whether such a number should be issued', unit: '' },
  },
  compute: ({ code }) => {
    if (code.length > 10) readContainer(code);
    const { full, sum, remainder, isAdvised } = containerCheck(code.slice(0, 10));
    return {
      full,
      sum,
      remainder,
      category: containerCategories[full[3] as keyof typeof containerCategories],
      remark: isAdvised
        ? 'as usual'
        : 'remainder 10 has the check digit of remainder 0: the standard advises against such a number',
    };
  },
});

const checkRelation = relation({
  name: 'check-characters',
  title: 'Check characters by ISO/IEC 7064',
  page: 'identifiers',
  source: 'ISO/IEC 7064:2003 (from memory)',
  takes: {
    text: {
      kind: 'text',
      symbol: '',
      what: 'characters without spaces; with their check characters to have those judged',
      example: '0794',
    },
    system: { kind: 'choice', symbol: '', what: 'system of the standard', options: checkSystems },
  },
  gives: {
    check: {
      symbol: '',
      what: 'check characters of all that was given; none where it ends in X or *, which only checks',
      unit: '',
    },
    full: { symbol: '', what: 'with them', unit: '' },
    ends: {
      symbol: '',
      what: 'whether what was given ends in the right check characters already; some strings do by chance',
      unit: '',
    },
  },
  compute: ({ text, system }) => {
    const isWhole = hasRightCheck(text, system);
    // X and * are check characters only: a string that ends in one needs none
    const check = isWhole && !canBeChecked(text, system) ? null : checkCharacters(text, system);
    return { check, full: text + (check ?? ''), ends: isWhole ? 'yes' : 'no' };
  },
});

export const identifiersRelations: readonly Relation[] = [containerRelation, checkRelation];
