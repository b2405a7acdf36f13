import { describe, expect, it } from 'vitest';
import { sayEnglish } from '../texts/say-english.ts';
import { allCountedTwice } from './counted-twice.ts';
import { plainHole } from './plain-hole.suite.ts';

const said = (phone: ReturnType<typeof plainHole>['phone']) =>
  allCountedTwice(phone.book.view().holes[0]!).map((one) => sayEnglish(one));

describe('allCountedTwice', () => {
  it('tells of two runs of one number until a person has settled which is which', () => {
    const { phone, hole } = plainHole();
    expect(said(phone)).toEqual([]);
    const other = phone.log('run', { number: '1', from: '0.90 m', to: '1.80 m' }, hole);
    expect(said(phone)).toEqual(['Both runs B-R001 count in depths and totals until this is settled.']);
    phone.do({ do: 'correct', thing: other, readings: { number: '90' }, reason: 'misread' });
    expect(said(phone)).toEqual([]);
  });

  it('is silent about contradicting readings: one of them counts', () => {
    const { phone } = plainHole();
    const run = phone.book.view().holes[0]!.runs[0]!;
    const conflict = {
      key: 'x',
      kind: 'two readings',
      says: { key: 'as.it.is', values: {} },
      things: [run.id],
    } as const;
    expect(allCountedTwice({ ...phone.book.view().holes[0]!, conflicts: [conflict] })).toEqual([]);
  });
});
