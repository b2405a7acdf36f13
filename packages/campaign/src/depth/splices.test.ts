import { joinRecords, toComposite } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { plainHole } from './plain-hole.suite.ts';
import { splicesOf } from './splices.ts';

describe('splicesOf', () => {
  it('join a hole and a pit by the offset that a person gave', () => {
    const { phone, hole } = plainHole();
    const pit = phone.log('pit', { name: 'pit 1' });
    phone.log('splice', { of: hole, on: pit, offset: '-12 cm', sd: '3 cm', method: 'levelled' });
    const splices = splicesOf(phone.book.view());
    expect(splices).toMatchObject([{ of: hole, on: pit, offset: { value: -0.12, sd: 0.03 } }]);
    expect(toComposite(joinRecords(splices, pit), hole, { value: 1, sd: 0 }).value).toBeCloseTo(1.12, 12);
  });

  it('follow a pit that was joined, and are left out with one that is withdrawn or an offset that cannot be', () => {
    const { phone, hole } = plainHole();
    const [pit, again] = ['pit 1', 'pit one'].map((name) => phone.log('pit', { name })) as [string, string];
    const top = phone.log('hand-augered top', { name: 'top' });
    phone.log('splice', { of: hole, on: again, offset: '-12 cm' });
    phone.log('splice', { of: top, on: hole, offset: '7 km' });
    phone.do({ do: 'join', into: pit, from: again, reason: 'one pit' });
    expect(splicesOf(phone.book.view()).map(({ of, on }) => [of, on])).toEqual([[hole, pit]]);
    phone.do({ do: 'withdraw', thing: pit, reason: 'never dug' });
    expect(splicesOf(phone.book.view())).toEqual([]);
  });
});
