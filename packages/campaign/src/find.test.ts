import { describe, expect, it } from 'vitest';
import { opened } from './device.suite.ts';
import { findNamed, findThing } from './find.ts';

/** Hole B with two runs, each with its piece 1; a pit and a drill set-up of the campaign. Invented. */
function season() {
  const { phone, hole } = opened('phone');
  const runs = ['1', '2'].map((number) => phone.log('run', { number, from: '0 m', to: '0.87 m' }, hole));
  const pieces = runs.map((run) => phone.log('piece', { number: '1', topBreak: 'fits' }, hole, run));
  const second = phone.log('piece', { number: '2', topBreak: 'fits' }, hole, runs[1]);
  const pit = phone.log('pit', { name: 'North pit' });
  const setup = phone.log('set-up', { name: 'Long barrel' });
  const found = (of: string | readonly string[], said: string, isIn = true) => {
    const campaign = phone.book.view();
    const kinds = typeof of === 'string' ? [of] : of;
    return findNamed(campaign, isIn ? phone.book.holeView(hole)! : null, kinds, said)?.id;
  };
  return { phone, hole, runs, pieces, second, pit, setup, found };
}

describe('findNamed', () => {
  it('finds a run by id, name, number and old name, whatever the case', () => {
    const { phone, runs, found } = season();
    for (const said of [runs[1]!, 'B-R002', 'b-r002', '2']) expect(found('run', said)).toBe(runs[1]);
    phone.do({ do: 'correct', thing: runs[1]!, readings: { number: '7' }, reason: 'miscounted' });
    for (const said of ['7', 'B-R007', 'b-r002']) expect(found('run', said)).toBe(runs[1]);
    expect(found('run', '2')).toBeUndefined();
  });

  it('finds any other kind of the hole; a number counts where one thing alone bears it', () => {
    const { phone, hole, pieces, second, found } = season();
    expect(found('piece', 'B-P001.1')).toBe(pieces[0]);
    expect(found('piece', '2')).toBe(second);
    expect(found('piece', '1')).toBeUndefined();
    const zero = phone.book.holeView(hole)!.zeros[0]!;
    for (const said of [zero.id, zero.name, zero.name.toUpperCase()])
      expect(found('zero', said)).toBe(zero.id);
  });

  it('finds people, devices, holes and things of the campaign, inside a hole and outside', () => {
    const { phone, hole, pit, setup, found } = season();
    for (const isIn of [true, false]) {
      expect(found('person', 'kt', isIn)).toBe(phone.book.view().people[1]!.id);
      expect(found('set-up', 'long barrel', isIn)).toBe(setup);
      expect(found(['hole', 'pit'], 'North pit', isIn)).toBe(pit);
      for (const said of ['B', 'b', 'CER-B', hole]) expect(found(['hole', 'pit'], said, isIn)).toBe(hole);
    }
  });

  it('finds nothing of another kind, nothing of a hole outside of it, and nothing withdrawn by its name', () => {
    const { phone, runs, pit, found } = season();
    expect(found('piece', 'B-R001')).toBeUndefined();
    expect(found('piece', runs[0]!)).toBeUndefined();
    expect(found('run', 'B-R001', false)).toBeUndefined();
    for (const said of ['', '__proto__', '0', 'nothing']) expect(found(['run', 'pit'], said)).toBeUndefined();
    phone.do({ do: 'withdraw', thing: pit, reason: 'never dug' });
    expect(found('pit', 'North pit')).toBeUndefined();
    expect(found('pit', pit)).toBe(pit);
    expect(findThing(phone.book.view(), pit)).toMatchObject({ hole: null });
  });
});
