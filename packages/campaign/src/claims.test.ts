import { describe, expect, it } from 'vitest';
import { device, opened } from './device.suite.ts';
import { sayEnglish } from './texts/say-english.ts';
import type { HoleView } from './view.ts';

function logged() {
  const { phone, hole } = opened('phone');
  const run = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
  const piece = phone.log('piece', { number: '1', length: '84 cm', topBreak: 'fits' }, hole, run);
  const lengthOf = (view: HoleView) => view.runs[0]!.pieces[0]!.readings.length!;
  return { phone, hole, run, piece, lengthOf };
}

describe('corrections', () => {
  it('J3: a correction counts, the old reading stays beside it with who and why', () => {
    const { phone, hole, piece, lengthOf } = logged();
    const correction = phone.do({
      do: 'correct',
      thing: piece,
      readings: { length: '83,5 cm' },
      reason: 'measured again',
    });
    const length = lengthOf(phone.book.holeView(hole)!);
    expect(length).toMatchObject({ text: '83,5 cm', value: 0.835, entry: correction, against: [] });
    expect(length.struck).toMatchObject([
      { text: '84 cm', value: 0.84, entry: piece, reason: 'measured again' },
    ]);
    expect(phone.book.holeView(hole)!.runs[0]!.pieces[0]!.entries).toEqual([piece, correction]);
  });

  it('J3: a correction of a correction strikes that one, and both stay', () => {
    const { phone, hole, piece, lengthOf } = logged();
    phone.do({ do: 'correct', thing: piece, readings: { length: '83 cm' }, reason: 'measured again' });
    phone.do({ do: 'correct', thing: piece, readings: { length: '85 cm' }, reason: 'tape was bent' });
    const length = lengthOf(phone.book.holeView(hole)!);
    expect(length.text).toBe('85 cm');
    expect(length.struck.map((one) => [one.text, one.reason])).toEqual([
      ['84 cm', 'measured again'],
      ['83 cm', 'tape was bent'],
    ]);
  });

  it('J3: two corrections of one length by two devices are both kept as a conflict; a third entry settles it', () => {
    const { phone, hole, piece, lengthOf } = logged();
    const tablet = device('tablet');
    tablet.me = phone.me;
    tablet.hear(phone);
    phone.do({ do: 'correct', thing: piece, readings: { length: '83 cm' }, reason: 'measured again' });
    tablet.do({ do: 'correct', thing: piece, readings: { length: '85 cm' }, reason: 'read wrongly' });
    phone.hear(tablet);
    tablet.hear(phone);
    const view = phone.book.holeView(hole)!;
    expect(tablet.book.holeView(hole)).toEqual(view);
    expect(view.conflicts).toMatchObject([{ kind: 'two readings', things: [piece], field: 'length' }]);
    expect(sayEnglish(view.conflicts[0]!.says)).toMatch(
      /^B-P001\.1 has two readings of its length: 8[35] cm or 8[35] cm\.$/,
    );
    const shown = lengthOf(view);
    expect([shown.text, ...shown.against.map((one) => one.text)].sort()).toEqual(['83 cm', '85 cm']);
    expect(shown.struck.map((one) => one.text)).toEqual(['84 cm']);
    phone.do({ do: 'correct', thing: piece, readings: { length: '85 cm' }, reason: 'this one counts' });
    const after = phone.book.holeView(hole)!;
    expect(after.conflicts).toEqual([]);
    expect(lengthOf(after)).toMatchObject({ text: '85 cm', against: [] });
    expect(
      lengthOf(after)
        .struck.map((one) => one.text)
        .sort(),
    ).toEqual(['83 cm', '84 cm', '85 cm']);
  });

  it('two corrections that say the same in other units are no conflict, and the next one names both', () => {
    const { phone, hole, piece, lengthOf } = logged();
    const tablet = device('tablet');
    tablet.me = phone.me;
    tablet.hear(phone);
    phone.do({ do: 'correct', thing: piece, readings: { length: '83 cm' }, reason: 'measured again' });
    tablet.do({ do: 'correct', thing: piece, readings: { length: '0,830 m' }, reason: 'measured again' });
    phone.hear(tablet);
    expect(phone.book.holeView(hole)!.conflicts).toEqual([]);
    expect(lengthOf(phone.book.holeView(hole)!).agreeing).toHaveLength(1);
    phone.do({ do: 'correct', thing: piece, readings: { length: '82 cm' }, reason: 'and again' });
    expect(phone.book.holeView(hole)!.conflicts).toEqual([]);
    expect(lengthOf(phone.book.holeView(hole)!).struck).toHaveLength(3);
  });

  it('a correction of one field leaves the others of the same entry standing', () => {
    const { phone, hole, run } = logged();
    phone.do({ do: 'correct', thing: run, readings: { to: '0.88 m' }, reason: 'read again' });
    const { readings } = phone.book.holeView(hole)!.runs[0]!;
    expect(readings.from).toMatchObject({ text: '0 m', struck: [], entry: run });
    expect(readings.to!.struck).toHaveLength(1);
  });

  it('J5: a correction whose target is not there is kept and counted as waiting, and counts once it comes', () => {
    const { phone, hole, piece, lengthOf } = logged();
    phone.do({ do: 'correct', thing: piece, readings: { length: '83 cm' }, reason: 'measured again' });
    const late = device('late');
    const withoutPiece = phone.written.filter((entry) => entry.header.id !== piece);
    late.book.add(withoutPiece);
    expect(late.book.holeView(hole)).toMatchObject({ waiting: 1, runs: [{ pieces: [] }] });
    late.book.add(phone.written);
    expect(late.book.holeView(hole)).toEqual(phone.book.holeView(hole));
    expect(lengthOf(late.book.holeView(hole)!).text).toBe('83 cm');
  });

  it('a withdrawn piece stays visible, struck through, with the reason', () => {
    const { phone, hole, piece } = logged();
    phone.do({ do: 'withdraw', thing: piece, reason: 'logged twice' });
    const view = phone.book.holeView(hole)!;
    expect(view.runs[0]!.pieces[0]).toMatchObject({
      id: piece,
      name: 'B-P001.1',
      withdrawn: { reason: 'logged twice', by: phone.me },
    });
  });

  it('a piece logged under the wrong run moves when its run is corrected, and keeps its old name as an alias', () => {
    const { phone, hole, piece } = logged();
    const second = phone.log('run', { number: '2', from: '0.87 m', to: '1.70 m' }, hole);
    phone.do({ do: 'correct', thing: piece, readings: { run: 'B-R002' }, reason: 'came up with the next' });
    const view = phone.book.holeView(hole)!;
    expect(view.runs[0]!.pieces).toEqual([]);
    expect(view.runs[1]!.pieces[0]).toMatchObject({
      id: piece,
      run: second,
      name: 'B-P002.1',
      aliases: ['B-P001.1'],
    });
  });

  it('J3: two tray tapes of one mean are two readings', () => {
    const { phone, hole, run } = logged();
    const tray = phone.log('tray', { run, positions: '2 43 85 cm' }, hole);
    const tablet = device('tablet', 1_780_000_900_000);
    tablet.hear(phone);
    const again = (positions: string): void => {
      const of = positions.includes('40') ? tablet : phone;
      of.do({ do: 'correct', thing: tray, readings: { positions }, reason: 'read again' });
    };
    again('2,0 43,0 86,0 cm');
    again('2 40 89 cm');
    phone.hear(tablet);
    expect(phone.book.holeView(hole)!.conflicts).toHaveLength(1);
    again('20 430 860 mm');
    expect(phone.book.holeView(hole)!.conflicts).toEqual([]);
  });
});
