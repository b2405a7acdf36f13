import type { Relation } from '@firnbook/science/relations';
import { describe, expect, it } from 'vitest';
import '../texts/for-calculator.ts';
import { fieldNumber, fieldOf, givenBy, namesUnderMore } from './fields.ts';
import type { Question } from './question.ts';

/** A relation of nothing in particular. */
const relation: Relation = {
  name: 'made-up',
  title: '',
  page: '',
  source: '',
  takes: {
    width: { kind: 'number', symbol: 'd', what: 'width', unit: 'm', range: [0.02, 0.3], because: 'made up' },
    cold: { kind: 'number', symbol: 'T', what: 'cold', unit: 'Cel', range: [-50, 0], because: 'made up' },
    pull: {
      kind: 'number',
      symbol: 'F',
      what: 'pull',
      unit: 'kN',
      range: [1, 900],
      because: 'made up',
      usual: 40,
    },
    days: { kind: 'number', symbol: 't', what: 'time', unit: 'd', range: [0, 99], because: 'made up' },
    by: { kind: 'choice', symbol: '', what: 'variant', options: ['first', 'second'] },
  },
  gives: {},
  compute: () => ({}),
};
const question = {
  key: 'closure',
  relation,
  asked: ['width', 'cold'],
  camp: {
    width: { units: ['mm', 'cm'], sd: 0.5 },
    cold: { units: ['Cel'], sd: 0.7, start: '-' },
    pull: { units: ['kN'], sdShare: 0.05 },
    days: { units: ['d', 'h'], guess: 10 },
  },
  fromBook: () => ({}),
  answer: () => ({ headlines: [], says: [] }),
} as const satisfies Question;

const book = { width: { value: 0.1264, sd: 0.0003, unit: 'm', says: 'set-up 2' } };
const point = (text: string) => text.replace(',', '.');
const all = (typed: Parameters<typeof fieldOf>[2] = undefined) =>
  ['width', 'cold', 'pull', 'days'].map((take) =>
    fieldOf(question, take, take === 'width' ? typed : undefined, {}),
  );

describe('fieldOf', () => {
  it('shows what the book says in the unit of the camp, with its uncertainty and where it comes from', () => {
    const field = fieldOf(question, 'width', undefined, book);
    expect([field.text, field.sd].map(point)).toEqual(['126.4', '0.3']);
    expect(field).toMatchObject({ unit: 'mm', from: 'book', says: 'set-up 2', signed: false });
  });
  it('what is typed takes its place, has the usual tolerance, and the book is still told', () => {
    const field = fieldOf(question, 'width', { text: '98', sd: '', unit: 'mm' }, book);
    expect(field).toMatchObject({ text: '98', from: 'typed' });
    expect(point(field.sd)).toBe('0.5');
    expect(point(field.says ?? '')).toMatch(/^Typed here\. The book says 126\.4\u00a0mm \(set-up 2\)$/);
  });
  it('another unit: what was offered is converted, what is typed keeps its digits', () => {
    const offered = fieldOf(question, 'width', { text: '', sd: '', unit: 'cm' }, book);
    expect([offered.text, offered.sd].map(point)).toEqual(['12.64', '0.03']);
    expect(fieldOf(question, 'width', { text: '98', sd: '', unit: 'cm' }, book).text).toBe('98');
  });
  it('usual values and first guesses say what they are; a share of the value as tolerance', () => {
    const [, cold, pull, days] = all();
    expect(pull).toMatchObject({ text: '40', sd: '2', from: 'usual' });
    expect(days).toMatchObject({ text: '10', sd: '', from: 'guess' });
    expect(cold).toMatchObject({ text: '-', from: 'nothing', signed: true });
  });
});

describe('givenBy', () => {
  it('gives each number in the unit that it was typed in, choices as words, and names what is missing', () => {
    const given = givenBy(relation, all({ text: '12,5', sd: '0.4', unit: 'cm' }), { by: 'second' });
    expect(given.missing).toEqual(['cold']);
    expect(given.problems).toEqual({});
    expect(given.inputs).toEqual({
      width: { kind: 'number', value: 12.5, sd: 0.4, unit: 'cm' },
      pull: { kind: 'number', value: 40, sd: 2, unit: 'kN' },
      days: { kind: 'number', value: 10, unit: 'd' },
      by: { kind: 'words', text: 'second' },
    });
  });
  it('out of range: says what was typed and what is taken, in its unit, and why', () => {
    const { problems } = givenBy(relation, all({ text: '12', sd: '', unit: 'mm' }), {});
    expect(problems.width).toBe('12\u00a0mm is out of range: 20 to 300\u00a0mm (made up).');
  });
  it('a bound itself is within, whatever the units do to it', () => {
    for (const [text, unit] of [
      ['20', 'mm'],
      ['300', 'mm'],
      ['2', 'cm'],
      ['30', 'cm'],
    ] as const)
      expect(givenBy(relation, all({ text, sd: '', unit }), {}).problems).toEqual({});
  });
});

describe('the small ones', () => {
  it('namesUnderMore: what is not asked for up front, in the relation’s order', () => {
    expect(namesUnderMore(question)).toEqual(['pull', 'days', 'by']);
  });
  it('fieldNumber: as a keypad would type it', () => {
    expect([0.000012, 110.4419, 9.8236, -17.4, 0, 36525].map((value) => point(fieldNumber(value)))).toEqual([
      '0.000012',
      '110.44',
      '9.8236',
      '-17.4',
      '0',
      '36525',
    ]);
  });
});
