import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { depthAssumptions } from './assumptions.ts';
import { depthReadings, depthSources } from './readings.ts';
import { depthView } from './view.ts';

const none = { others: {} };

function season() {
  const { phone, hole } = opened('phone');
  // Logged out of order: the second run first.
  const second = phone.log('run', { number: '2', from: '0.86 m', to: '1,74 m' }, hole);
  const first = phone.log('run', { number: '1', from: '0', to: '87 cm' }, hole);
  const pieces = [
    phone.log('piece', { number: '1', length: '84 cm', topBreak: 'unsure' }, hole, first),
    phone.log('piece', { number: '2', length: '42 cm', topBreak: 'loss', loss: '3 cm' }, hole, second),
    phone.log('piece', { number: '1', length: '41 cm', topBreak: 'fits', loss: '1 cm' }, hole, second),
  ];
  const sounding = phone.log('sounding', { afterRun: second, depth: '1.73 m' }, hole);
  return { phone, hole, first, second, pieces, sounding };
}

describe('depthReadings', () => {
  it('are in order of run and piece number, in metres; a loss counts only where ice was lost', () => {
    const { phone, hole, first, second, pieces, sounding } = season();
    expect(depthReadings(phone.book.holeView(hole)!, none)).toEqual({
      runs: [
        { id: first, from: 0, to: 0.87 },
        { id: second, from: 0.86, to: 1.74 },
      ],
      pieces: [
        { id: pieces[0], run: first, length: 0.84, topBreak: 'unsure' },
        { id: pieces[2], run: second, length: 0.41, topBreak: 'fits' },
        { id: pieces[1], run: second, length: 0.42, topBreak: 'loss', loss: 0.03 },
      ],
      soundings: [{ id: sounding, afterRun: second, depth: 1.73, sd: 0.02 }],
    });
  });

  it('a stub that is told before its run lies on the bench waits for the pieces', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0', to: '0.92 m', stub: '3 cm' }, hole);
    const told = () => depthReadings(phone.book.holeView(hole)!, phone.book.view()).runs[0]?.leftInHole;
    expect(told()).toBeUndefined();
    phone.log('piece', { number: '1', length: '88 cm', topBreak: 'fits' }, hole, run);
    expect(told()?.value).toBe(0.03);
  });

  it('take stubs, barrel, catchers, counters, marks and kinds of ice as they were logged, each in metres', () => {
    const { phone, hole } = opened('phone');
    const setup = phone.log('set-up', { name: 'long barrel', barrel: '1.15 m', catcherHeight: '38 mm' });
    const first = phone.log('run', { number: '1', from: '0', to: '0.87 m' }, hole);
    const second = phone.log(
      'run',
      { number: '2', to: '1.70 m', counter: 'not zeroed', setup, stub: '8 cm' },
      hole,
    );
    const sawn = { number: '1', length: '41 cm', topBreak: 'sawn', kerf: '2 mm', loss: '3 cm' };
    const piece = phone.log('piece', { ...sawn, catcherMark: '12 mm', catcherRun: '1' }, hole, second);
    const plug = phone.log(
      'piece',
      { number: '2', topBreak: 'loss', ice: 'chip plug', length: '6 cm' },
      hole,
      second,
    );
    const late = {
      number: '3',
      topBreak: 'handling',
      order: 'unsure',
      found: 'later',
      temperature: '-14 °C',
    };
    const third = phone.log('piece', late, hole, second);
    const check = phone.log('cable check', { afterRun: first, mark: '10 m', counter: '10.03 m' }, hole);
    expect(depthReadings(phone.book.holeView(hole)!, phone.book.view())).toEqual({
      runs: [
        {
          id: first,
          from: 0,
          to: 0.87,
          barrelLength: 1.15,
          catcherHeight: 0.038,
        },
        {
          id: second,
          to: 1.7,
          resets: false,
          barrelLength: 1.15,
          catcherHeight: 0.038,
          leftInHole: { value: 0.08, sd: 0.04 },
        },
      ],
      pieces: [
        {
          id: piece,
          run: second,
          length: 0.41,
          topBreak: 'sawn',
          kerf: 0.002,
          catcherMark: { depth: 0.012, byRun: first },
        },
        { id: plug, run: second, length: 0.06, topBreak: 'loss', outOfPlace: true },
        {
          id: third,
          run: second,
          topBreak: 'handling',
          temperature: -14,
          orderUnsure: true,
          foundLater: true,
        },
      ],
      soundings: [],
      cableChecks: [{ id: check, afterRun: first, counter: 10.03, mark: 10, sd: 0.01 }],
    });
  });

  it('pieces go with their run when it is withdrawn and come back with it; joined runs bring theirs together', () => {
    const { phone, hole, first, second, pieces } = season();
    const ids = () => depthReadings(phone.book.holeView(hole)!, none).pieces.map((one) => one.id);
    phone.do({ do: 'withdraw', thing: second, reason: 'never drilled' });
    expect(ids()).toEqual([pieces[0]]);
    phone.do({ do: 'restore', thing: second, reason: 'it was' });
    expect(ids()).toEqual([pieces[0], pieces[2], pieces[1]]);
    phone.do({ do: 'join', into: first, from: second, reason: 'one run' });
    expect(depthReadings(phone.book.holeView(hole)!, none).pieces.map((one) => one.run)).toEqual([
      first,
      first,
      first,
    ]);
  });

  it('leave out the scratch of a catcher whose run is withdrawn: nobody knows then how deep it bit', () => {
    const { phone, hole, first, pieces } = season();
    phone.do({ do: 'add', thing: pieces[2]!, readings: { catcherMark: '12 mm', catcherRun: first } });
    const mark = () =>
      depthReadings(phone.book.holeView(hole)!, none).pieces.find((one) => one.id === pieces[2]);
    expect(mark()!.catcherMark).toEqual({ depth: 0.012, byRun: first });
    phone.do({ do: 'withdraw', thing: first, reason: 'never drilled' });
    expect(mark()).toBeDefined();
    expect(mark()!.catcherMark).toBeUndefined();
  });

  it('numbers that no instrument shows are left out: every depth would hang on them', () => {
    const { phone, hole, second, pieces } = season();
    const wild = '99999999999999999999999999999999999999 m';
    phone.log('depth settings', { readingSd: wild, fillMean: '0 cm', holeTemperature: '5000' }, hole);
    phone.do({ do: 'correct', thing: second, readings: { from: wild }, reason: 'pasted' });
    phone.do({ do: 'add', thing: pieces[0]!, readings: { temperature: '-9000', catcherMark: wild } });
    phone.log('tray', { run: second, positions: `0 ${wild} ${wild}` }, hole);
    phone.at = 'yesterday';
    phone.log('run', { number: '3', to: '2.6 m' }, hole);
    phone.log('site', { name: 'saddle', temperature: '-17', accumulation: '0.4 m' });
    const view = phone.book.holeView(hole)!;
    const readings = depthReadings(view, phone.book.view());
    expect(readings.holeTemperature).toBeUndefined();
    expect(readings.runs.map((run) => [run.from, run.trayTape])).toEqual([
      [0, undefined],
      [undefined, undefined],
      [undefined, undefined],
    ]);
    expect(readings.runs[2]).not.toHaveProperty('epoch');
    expect(readings.pieces[0]).toEqual({
      id: pieces[0],
      run: readings.runs[0]!.id,
      length: 0.84,
      topBreak: 'unsure',
    });
    expect(solveDepths(readings, depthAssumptions(view)).runs).toHaveLength(3);
  });

  it('give several zeros with the mean of their measured heights, each from the first run that counts from it', () => {
    const { phone, hole, first, second } = season();
    expect(depthReadings(phone.book.holeView(hole)!, none).zeros).toBeUndefined();
    const board = phone.log('zero', { surface: 'board set anew', height: '31 cm' }, hole);
    phone.log('zero check', { zero: board, height: '31.4 cm', sd: '1 cm' }, hole);
    phone.do({ do: 'add', thing: second, readings: { zero: board } });
    const zeros = depthReadings(phone.book.holeView(hole)!, none).zeros!;
    expect(zeros.map((one) => one.fromRun)).toEqual([first, second]);
    expect(zeros[0]!.height).toBe(0);
    // Two measurements of 1 cm each: their mean, and 1 cm over the root of two.
    expect(zeros[1]!.height).toBeCloseTo(0.312, 9);
    expect(zeros[1]!.sd).toBeCloseTo(0.01 / Math.SQRT2, 9);
  });

  it('read a run off its tray tape: n + 1 places, or both ends of each piece; else the tape says nothing', () => {
    const { phone, hole, second, pieces } = season();
    const tape = (positions: string) => {
      const tray = phone.log('tray', { run: second, positions }, hole);
      const breaks = depthReadings(phone.book.holeView(hole)!, none).runs[1]!.trayTape?.breaks;
      phone.do({ do: 'withdraw', thing: tray, reason: 'next try' });
      return breaks?.map(({ piece, top, bottom }) => [piece, top.toFixed(3), bottom.toFixed(3)]);
    };
    expect(tape('2.0 43.1 85.2 cm')).toEqual([
      [pieces[2], '0.020', '0.431'],
      [pieces[1], '0.431', '0.852'],
    ]);
    expect(tape('2 43 46,5 88 cm')).toEqual([
      [pieces[2], '0.020', '0.430'],
      [pieces[1], '0.465', '0.880'],
    ]);
    expect(tape('2.0 43.1 cm')).toBeUndefined();
    expect(tape('2.0 85.2 43.1 cm')).toBeUndefined();
  });

  it('leave out what was withdrawn, with all that hangs on it, and numbers that no hole holds', () => {
    const { phone, hole, first, second, pieces } = season();
    phone.do({ do: 'withdraw', thing: second, reason: 'never drilled' });
    phone.do({ do: 'correct', thing: pieces[0]!, readings: { length: '-84 cm' }, reason: 'slip' });
    phone.do({ do: 'correct', thing: first, readings: { to: '870 km' }, reason: 'slip' });
    const readings = depthReadings(phone.book.holeView(hole)!, none);
    expect(readings).toEqual({
      runs: [{ id: first, from: 0 }],
      pieces: [{ id: pieces[0], run: first, topBreak: 'unsure' }],
      soundings: [],
    });
    expect(() => solveDepths(readings)).not.toThrow();
  });

  it('J8: depthSources are the entries that the depths hang on, struck ones not', () => {
    const { phone, hole, first, second, pieces, sounding } = season();
    const correction = phone.do({
      do: 'correct',
      thing: pieces[0]!,
      readings: { length: '85 cm' },
      reason: 'again',
    });
    const sources = depthSources(phone.book.holeView(hole)!, none);
    const zero = phone.book.holeView(hole)!.zeros[0]!.id;
    expect([...sources].sort()).toEqual([zero, first, second, ...pieces, sounding, correction].sort());
    phone.do({ do: 'withdraw', thing: second, reason: 'never drilled' });
    expect(depthSources(phone.book.holeView(hole)!, none)).not.toContain(second);
  });

  it('J8: with a length made from a mass, depths hang on the masses of its neighbours; with strain, on the site', () => {
    const { phone, hole, first, pieces } = season();
    const mass = phone.do({ do: 'add', thing: pieces[0]!, readings: { mass: '5 kg' } });
    const site = phone.log('site', { name: 'saddle', temperature: '-17', accumulation: '0.4 m' });
    const sources = () => depthSources(phone.book.holeView(hole)!, phone.book.view());
    expect(sources()).toContain(site);
    expect(sources()).not.toContain(mass);
    phone.log('piece', { number: '2', topBreak: 'unsure', ice: 'crumbled', mass: '900 g' }, hole, first);
    expect(sources()).toContain(mass);
  });
});

describe('depthView', () => {
  it('holds the solution by id; a corrected length moves every depth below it', () => {
    const { phone, hole, pieces, second } = season();
    const solve = () => {
      const view = phone.book.holeView(hole)!;
      return depthView(view, solveDepths(depthReadings(view, none)));
    };
    const before = solve();
    expect(before.hole).toBe(hole);
    expect(Object.keys(before.pieces).sort()).toEqual([...pieces].sort());
    expect(before.holeBottom).toEqual(before.runs[second]!.holeBottom);
    expect(before.coreBottom).toEqual(before.pieces[pieces[1]!]!.bottom);
    phone.do({ do: 'correct', thing: pieces[0]!, readings: { length: '82 cm' }, reason: 'measured again' });
    const after = solve();
    for (const id of pieces) expect(after.pieces[id]!.bottom.value).not.toBe(before.pieces[id]!.bottom.value);
  });

  it('of a hole without runs is empty', () => {
    const { phone, hole } = opened('phone');
    const view = phone.book.holeView(hole)!;
    expect(depthView(view, solveDepths(depthReadings(view, none)))).toMatchObject({
      pieces: {},
      coreBottom: null,
      holeBottom: null,
    });
  });
});
