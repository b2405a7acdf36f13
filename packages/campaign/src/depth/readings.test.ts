import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { depthReadings, depthSources } from './readings.ts';
import { depthView } from './view.ts';

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
    expect(depthReadings(phone.book.holeView(hole)!)).toEqual({
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

  it('leave out what was withdrawn, with all that hangs on it, and numbers that no hole holds', () => {
    const { phone, hole, first, second, pieces } = season();
    phone.do({ do: 'withdraw', thing: second, reason: 'never drilled' });
    phone.do({ do: 'correct', thing: pieces[0]!, readings: { length: '-84 cm' }, reason: 'slip' });
    phone.do({ do: 'correct', thing: first, readings: { to: '870 km' }, reason: 'slip' });
    const readings = depthReadings(phone.book.holeView(hole)!);
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
    const sources = depthSources(phone.book.holeView(hole)!);
    expect([...sources].sort()).toEqual([first, second, ...pieces, sounding, correction].sort());
    phone.do({ do: 'withdraw', thing: second, reason: 'never drilled' });
    expect(depthSources(phone.book.holeView(hole)!)).not.toContain(second);
  });
});

describe('depthView', () => {
  it('holds the solution by id; a corrected length moves every depth below it', () => {
    const { phone, hole, pieces, second } = season();
    const solve = () => {
      const view = phone.book.holeView(hole)!;
      return depthView(view, solveDepths(depthReadings(view)));
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
    expect(depthView(view, solveDepths(depthReadings(view)))).toMatchObject({
      pieces: {},
      coreBottom: null,
      holeBottom: null,
    });
  });
});
