import { describe, expect, it } from 'vitest';
import { device, opened } from './device.suite.ts';

function weighing() {
  const { phone, hole } = opened('phone');
  const run = phone.log('run', { number: '1', from: '0', to: '0.87 m' }, hole);
  const piece = phone.log('piece', { number: '1', length: '84 cm', topBreak: 'fits' }, hole, run);
  return { phone, hole, run, piece, view: () => phone.book.holeView(hole)!.runs[0]!.pieces[0]! };
}

describe('add', () => {
  it('gives a thing its first reading of a field, later and by somebody else, without a reason', () => {
    const { phone, piece, view } = weighing();
    const entry = phone.do({ do: 'add', thing: piece, readings: { mass: '5120 g', tare: '410 g' } });
    expect(view().readings.mass).toMatchObject({
      text: '5120 g',
      value: 5.12,
      entry,
      struck: [],
      against: [],
    });
    expect(view().readings.length!.value).toBe(0.84);
  });

  it('is refused where that field is read already: that is a correction, and needs its reason', () => {
    const { phone, piece } = weighing();
    const [refusal] = phone.refusals({ do: 'add', thing: piece, readings: { length: '83 cm' } });
    expect(refusal?.field).toBe('length');
    expect(refusal?.what.key).toBe('refuse.said.already');
    expect(phone.refusals({ do: 'add', thing: piece, readings: {} })[0]?.what.key).toBe('refuse.no.reading');
  });

  it('J3: two tablets that weigh one piece at once both stay, as a conflict that a person settles', () => {
    const { phone, hole, piece, view } = weighing();
    const tablet = device('tablet', 1_780_000_900_000);
    tablet.hear(phone);
    phone.do({ do: 'add', thing: piece, readings: { mass: '5120 g' } });
    tablet.do({ do: 'add', thing: piece, readings: { mass: '5,21 kg' } });
    phone.hear(tablet);
    expect(phone.book.holeView(hole)!.conflicts).toHaveLength(1);
    phone.do({ do: 'correct', thing: piece, readings: { mass: '5120 g' }, reason: 'weighed again' });
    expect(phone.book.holeView(hole)!.conflicts).toEqual([]);
    expect(view().readings.mass!.struck.map((one) => one.text)).toContain('5,21 kg');
  });
});

describe('restore', () => {
  it('brings back what was withdrawn; everything said stays on record', () => {
    const { phone, piece, view } = weighing();
    const gone = phone.do({ do: 'withdraw', thing: piece, reason: 'logged twice' });
    expect(view().withdrawn).toMatchObject({ reason: 'logged twice', entries: [gone] });
    const back = phone.do({ do: 'restore', thing: piece, reason: 'it was not' });
    expect(view().withdrawn).toBeNull();
    expect(view().entries).toEqual([piece, gone, back]);
    phone.do({ do: 'withdraw', thing: piece, reason: 'it was after all' });
    expect(view().withdrawn?.reason).toBe('it was after all');
  });

  it('undoes only the withdrawals that it has seen', () => {
    const { phone, piece, view } = weighing();
    const tablet = device('tablet', 1_780_000_900_000);
    phone.do({ do: 'withdraw', thing: piece, reason: 'logged twice' });
    tablet.hear(phone);
    tablet.do({ do: 'withdraw', thing: piece, reason: 'not of this run' });
    phone.do({ do: 'restore', thing: piece, reason: 'it was not' });
    expect(view().withdrawn).toBeNull();
    phone.hear(tablet);
    expect(view().withdrawn?.reason).toBe('not of this run');
  });

  it('J1: a restore that arrives before the withdrawal it undoes waits for it', () => {
    const { phone, hole, piece } = weighing();
    const gone = phone.do({ do: 'withdraw', thing: piece, reason: 'logged twice' });
    phone.do({ do: 'restore', thing: piece, reason: 'it was not' });
    const late = device('late');
    late.book.add(phone.written.filter((entry) => entry.header.id !== gone));
    expect(late.book.holeView(hole)!.waiting).toBe(1);
    late.book.add(phone.written);
    expect(late.book.holeView(hole)).toEqual(phone.book.holeView(hole));
  });

  it('is refused for what was never withdrawn', () => {
    const { phone, piece } = weighing();
    expect(phone.refusals({ do: 'restore', thing: piece, reason: 'why not' })[0]?.what.key).toBe(
      'refuse.not.withdrawn',
    );
  });
});
