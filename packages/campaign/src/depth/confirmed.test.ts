import type { Finding } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { confirmationOf, readingEntry } from './confirmed.ts';

function found() {
  const { phone, hole } = opened('phone');
  const run = phone.log('run', { number: '1', from: '0', to: '0.9 m' }, hole);
  const piece = phone.log('piece', { number: '1', length: '71 cm', topBreak: 'unsure' }, hole, run);
  const finding: Finding = {
    what: 'piece',
    which: piece,
    field: 'length',
    size: -0.1,
    likely: '10 cm',
    probability: 0.8,
    detectable: 0.06,
  };
  const view = () => phone.book.holeView(hole)!;
  return { phone, hole, piece, finding, view };
}

describe('a reading that a person has confirmed', () => {
  it('is no longer asked about, on any device, and everybody sees who said so', () => {
    const { phone, hole, piece, finding, view } = found();
    expect(confirmationOf(view(), finding)).toBeUndefined();
    const entry = readingEntry(view(), piece, 'length')!;
    phone.log('confirmed reading', { of: piece, field: 'length', entry }, hole);
    expect(confirmationOf(view(), finding)).toMatchObject({ name: 'B-P001.1', by: phone.me });
    expect(confirmationOf(view(), { ...finding, field: 'loss' })).toBeUndefined();
  });

  it('is asked about again once it is corrected, or the confirmation is withdrawn', () => {
    const { phone, hole, piece, finding, view } = found();
    const confirm = () =>
      phone.log(
        'confirmed reading',
        { of: piece, field: 'length', entry: readingEntry(view(), piece, 'length')! },
        hole,
      );
    confirm();
    phone.do({ do: 'correct', thing: piece, readings: { length: '72 cm' }, reason: 'measured again' });
    expect(confirmationOf(view(), finding)).toBeUndefined();
    const again = confirm();
    expect(confirmationOf(view(), finding)?.id).toBe(again);
    phone.do({ do: 'withdraw', thing: again, reason: 'not so sure' });
    expect(confirmationOf(view(), finding)).toBeUndefined();
  });

  it('may be one that was never read: nothing is lost there, says the person', () => {
    const { phone, hole, piece, finding, view } = found();
    phone.log('confirmed reading', { of: piece, field: 'loss', entry: 'none' }, hole);
    expect(confirmationOf(view(), { ...finding, field: 'loss' })).toBeDefined();
  });

  it('holds when the thing was joined into another one and its reading is still the one that was looked at', () => {
    const { phone, hole, piece, finding, view } = found();
    const twin = phone.log('piece', { number: '2', topBreak: 'fits' }, hole, view().runs[0]!.id);
    const entry = readingEntry(view(), piece, 'length')!;
    phone.log('confirmed reading', { of: piece, field: 'length', entry }, hole);
    phone.do({ do: 'join', into: twin, from: piece, reason: 'logged twice' });
    const joined = { ...finding, which: twin };
    expect(readingEntry(view(), twin, 'length')).toBe(entry);
    expect(confirmationOf(view(), joined)).toBeDefined();
    phone.do({ do: 'correct', thing: twin, readings: { length: '72 cm' }, reason: 'measured again' });
    expect(confirmationOf(view(), joined)).toBeUndefined();
  });
});
