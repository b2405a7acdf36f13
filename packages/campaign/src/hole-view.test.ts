import { describe, expect, it } from 'vitest';
import { opened } from './device.suite.ts';

describe('holeView', () => {
  it('orders runs and pieces by number whatever the order of logging', () => {
    const { phone, hole } = opened('phone');
    const second = phone.log('run', { number: '2' }, hole);
    phone.log('run', { number: '1' }, hole);
    phone.log('piece', { number: '2', topBreak: 'fits' }, hole, second);
    phone.log('piece', { number: '1', topBreak: 'fits' }, hole, second);
    const { runs } = phone.book.holeView(hole)!;
    expect(runs.map((run) => run.name)).toEqual(['B-R001', 'B-R002']);
    expect(runs[1]!.pieces.map((piece) => piece.name)).toEqual(['B-P002.1', 'B-P002.2']);
  });

  it('a hole whose letter is corrected renames everything, old names stay as aliases', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1' }, hole);
    phone.log('piece', { number: '1', topBreak: 'fits' }, hole, run);
    const sounding = phone.log('sounding', { afterRun: run, depth: '1 m' }, hole);
    phone.do({ do: 'correct', thing: hole, readings: { letter: 'C' }, reason: 'B is taken' });
    const view = phone.book.holeView(hole)!;
    expect(view).toMatchObject({ letter: 'C', name: 'CER-B' });
    expect(view.runs[0]).toMatchObject({ name: 'C-R001', aliases: ['B-R001'] });
    expect(view.runs[0]!.pieces[0]).toMatchObject({ name: 'C-P001.1', aliases: ['B-P001.1'] });
    expect(view.soundings[0]).toMatchObject({ id: sounding, name: 'Sounding after C-R001' });
  });

  it('J5: pieces whose run has not arrived are counted as waiting; a hole nobody opened here is none', () => {
    const { phone, hole } = opened('phone');
    phone.write({ kind: 'piece.logged', body: { hole, run: 'elsewhere', readings: { number: '1' } } });
    expect(phone.book.holeView(hole)).toMatchObject({ waiting: 1, runs: [] });
    phone.write({ kind: 'run.logged', body: { hole: 'elsewhere', readings: { number: '1' } } });
    expect(phone.book.holeView('elsewhere')).toBeUndefined();
    expect(phone.book.view()).toMatchObject({ waiting: 1 });
  });

  it('J8: every reading names the entry, person and time behind it', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
    for (const reading of Object.values(phone.book.holeView(hole)!.runs[0]!.readings))
      expect(reading).toMatchObject({ entry: run, by: phone.me, at: '2026-06-14T09:30:00+05:45' });
    expect(phone.book.holeView(hole)!.runs[0]).toMatchObject({ by: phone.me, device: 'phone' });
  });

  // Found by random-history.test.ts, seed 9.
  it('J3: a piece that a wrong word puts into a run that is not here stays where it was, and can be put right', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1' }, hole);
    const piece = phone.log('piece', { number: '1', length: '84 cm', topBreak: 'fits' }, hole, run);
    const body = { hole, thing: piece, readings: { run: piece } };
    phone.write({ kind: 'reading.corrected', body, corrects: [piece], reason: 'r' });
    const view = phone.book.holeView(hole)!;
    expect(view.runs[0]!.pieces).toMatchObject([{ id: piece, run, name: 'B-P001.1' }]);
    expect(view.waiting).toBe(1);
    phone.do({ do: 'correct', thing: piece, readings: { run }, reason: 'it is of this one' });
    expect(phone.book.holeView(hole)!.waiting).toBe(0);
    // One of which nobody ever named a run that is here waits, with all that was said of it.
    const orphan = phone.write({
      kind: 'piece.logged',
      body: { hole, run: 'nowhere', readings: { number: '2' } },
    });
    const thing = orphan.header.id;
    phone.write({ kind: 'reading.added', body: { hole, thing, readings: { length: '4 cm' } } });
    expect(phone.book.holeView(hole)!.waiting).toBe(2);
  });
});
