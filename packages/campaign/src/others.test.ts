import { describe, expect, it } from 'vitest';
import { device, opened } from './device.suite.ts';
import { findThing } from './find.ts';

describe('things without a view of their own', () => {
  it('stand in the view by kind, called by the text or the thing that they are about', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '4', from: '0', to: '0.9 m' }, hole);
    const piece = phone.log('piece', { number: '1', topBreak: 'fits' }, hole, run);
    const melt = { piece: 'B-P004.1', what: 'melt layer', end: 'top', at: '84 mm' };
    const feature = phone.log('feature', melt, hole);
    const photograph = phone.log('photograph', { of: feature, picture: 'a'.repeat(64) }, hole);
    phone.log('weather', { temperature: '-12 °C', sky: 'clear' });
    const duty = phone.log('duty', { person: 'KT', as: 'driller', began: '2026-06-14T08:00:00+05:45' });
    const view = phone.book.view();
    const { others } = view.holes[0]!;
    expect(others.feature!.map((one) => [one.id, one.name])).toEqual([[feature, 'B-P004.1']]);
    expect(others.photograph![0]).toMatchObject({ id: photograph, name: 'B-P004.1' });
    expect(others.feature![0]!.readings.piece!.text).toBe(piece);
    expect(view.others.duty!.map((one) => one.name)).toEqual(['KT']);
    expect(view.others.weather!.map((one) => one.name)).toEqual(['']);
    expect(findThing(view, duty)?.hole).toBeNull();
    expect(findThing(view, feature)?.hole?.letter).toBe('B');
  });

  it('follow the new name of what they are about', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '4' }, hole);
    phone.log('cable check', { afterRun: run, mark: '10 m', counter: '10 m' }, hole);
    phone.do({ do: 'correct', thing: run, readings: { number: '5' }, reason: 'misread' });
    expect(phone.book.holeView(hole)!.others['cable check']![0]!.name).toBe('B-R005');
  });

  it('are corrected, contradicted and withdrawn like everything else', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1' }, hole);
    const check = phone.log('cable check', { afterRun: run, mark: '10 m', counter: '10.3 m' }, hole);
    const tablet = device('tablet');
    tablet.hear(phone);
    phone.do({ do: 'correct', thing: check, readings: { counter: '10.03 m' }, reason: 'misread' });
    tablet.do({ do: 'correct', thing: check, readings: { counter: '10.04 m' }, reason: 'misread' });
    phone.hear(tablet);
    const view = phone.book.holeView(hole)!;
    expect(view.conflicts.map((one) => one.things)).toEqual([[check]]);
    expect(view.others['cable check']![0]!.readings.counter!.struck.map((one) => one.text)).toEqual([
      '10.3 m',
    ]);
  });

  it('are called after what a joined thing turned out to be: runs, pieces, zeros, soundings, features, people', () => {
    const { phone, hole } = opened('phone');
    const [run, twin] = ['4', '5'].map((number) => phone.log('run', { number }, hole)) as [string, string];
    const [piece, again] = [run, twin].map((of) =>
      phone.log('piece', { number: '1', topBreak: 'fits' }, hole, of),
    ) as [string, string];
    const crack = { what: 'crack', end: 'top', at: '84 mm' };
    const [feature, other] = [piece, again].map((of) =>
      phone.log('feature', { ...crack, piece: of }, hole),
    ) as [string, string];
    const zero = phone.book.holeView(hole)!.zeros[0]!.id;
    const board = phone.log('zero', { surface: 'the same board' }, hole);
    const check = phone.log('zero check', { zero: board, height: '1 cm' }, hole);
    const sounding = phone.log('sounding', { afterRun: twin, depth: '4 m' }, hole);
    const stands = phone.log('confirmed reading', { of: sounding, field: 'depth', entry: sounding }, hole);
    const picture = phone.log('photograph', { of: other, picture: 'a'.repeat(64) }, hole);
    const [hn, kt] = phone.book.view().people.map((one) => one.id) as [string, string];
    const duty = phone.log('duty', { person: kt, as: 'driller', began: '2026-06-14T08:00:00+05:45' });
    const join = (into: string, from: string) => phone.do({ do: 'join', into, from, reason: 'one thing' });
    join(zero, board);
    join(feature, other);
    join(piece, again);
    join(run, twin);
    join(hn, kt);
    phone.do({ do: 'correct', thing: run, readings: { number: '7' }, reason: 'counted again' });
    const view = phone.book.view();
    const called = (id: string) => findThing(view, id)?.thing.name;
    expect([other, picture, check, sounding, stands, duty].map(called)).toEqual([
      'B-P007.1',
      'B-P007.1',
      'Zero 1',
      'Sounding after B-R007',
      'Sounding after B-R007',
      // Both were said, nobody settled it: the later word counts.
      'KT',
    ]);
  });

  it('follow a piece to another run, another piece, another letter of the hole, and stay when it is withdrawn', () => {
    const { phone, hole } = opened('phone');
    const [one, two] = ['1', '2'].map((number) => phone.log('run', { number }, hole)) as [string, string];
    const piece = phone.log('piece', { number: '1', topBreak: 'fits' }, hole, one);
    const second = phone.log('piece', { number: '2', topBreak: 'fits' }, hole, one);
    const feature = phone.log('feature', { piece, what: 'dust', end: 'top', at: '1 cm' }, hole);
    const picture = phone.log('photograph', { of: feature, picture: 'a'.repeat(64) }, hole);
    const tray = phone.log('tray', { run: one, positions: '0 40 80 cm' }, hole);
    const called = () => {
      const view = phone.book.view();
      return [feature, picture, tray].map((id) => findThing(view, id)?.thing.name);
    };
    const correct = (thing: string, readings: Record<string, string>) =>
      phone.do({ do: 'correct', thing, readings, reason: 'was wrong' });
    expect(called()).toEqual(['B-P001.1', 'B-P001.1', 'B-R001']);
    correct(piece, { run: two });
    expect(called()).toEqual(['B-P002.1', 'B-P002.1', 'B-R001']);
    correct(feature, { piece: second });
    expect(called()).toEqual(['B-P001.2', 'B-P001.2', 'B-R001']);
    correct(hole, { letter: 'C' });
    correct(second, { number: '3' });
    expect(called()).toEqual(['C-P001.3', 'C-P001.3', 'C-R001']);
    phone.do({ do: 'withdraw', thing: second, reason: 'no ice' });
    phone.do({ do: 'withdraw', thing: one, reason: 'never drilled' });
    expect(called()).toEqual(['C-P001.3', 'C-P001.3', 'C-R001']);
    expect(findThing(phone.book.view(), feature)?.thing.withdrawn).toBeNull();
  });

  it('J3: what a second device said when it opened the campaign anew stays in sight', () => {
    const { phone } = opened('phone');
    const tablet = device('tablet', 1_780_000_900_000);
    tablet.hear(phone);
    tablet.me = phone.me;
    const readings = { name: 'Another name', note: 'typed on the tablet' };
    const again = tablet.do({ do: 'open campaign', readings, crew: [] });
    const view = tablet.book.view();
    expect(view.name).toBe('Ceredin Saddle');
    expect(findThing(view, again)?.thing.readings.note?.text).toBe('typed on the tablet');
  });
});
