import { describe, expect, it } from 'vitest';
import { DepthInputError } from './input-error.ts';
import { order } from './order.ts';
import type { DepthReadings } from './readings.ts';

const good: DepthReadings = {
  runs: [
    { id: 'R1', from: 0, to: 0.9 },
    { id: 'R2', to: 1.7 },
  ],
  pieces: [
    { id: 'x', run: 'R2', length: 0.8, topBreak: 'fits' },
    { id: 'y', run: 'R1', length: 0.5, topBreak: 'fits' },
    { id: 'z', run: 'R1', length: 0.4, topBreak: 'unsure' },
  ],
  soundings: [{ id: 's', afterRun: 'R2', depth: 1.7, sd: 0.03 }],
};

describe('order', () => {
  it('puts pieces in the order of the runs and keeps their order within a run', () => {
    const o = order(good);
    expect(o.pieces.map((piece) => piece.id)).toEqual(['y', 'z', 'x']);
    expect([...o.first]).toEqual([0, 0, 2, 3]);
    expect([...o.runOfPiece]).toEqual([1, 1, 2]);
  });

  it.each([
    ['a run twice', { ...good, runs: [...good.runs, { id: 'R1' }] }, 'run R1'],
    ['a piece twice', { ...good, pieces: [...good.pieces, good.pieces[0]] }, 'piece x'],
    ['a piece of an unknown run', { ...good, pieces: [{ id: 'q', run: 'R9', topBreak: 'fits' }] }, 'R9'],
    [
      'a sounding after an unknown run',
      { ...good, soundings: [{ ...good.soundings[0], afterRun: 'R8' }] },
      'R8',
    ],
    [
      'a counter reading that is no number',
      { ...good, runs: [{ id: 'R1', from: Number.NaN }, good.runs[1]] },
      'from',
    ],
    [
      'an infinite counter reading',
      { ...good, runs: [good.runs[0], { id: 'R2', to: Number.POSITIVE_INFINITY }] },
      'to',
    ],
    ['a length below 0', { ...good, pieces: [{ ...good.pieces[0], length: -0.2 }] }, 'length'],
    ['a loss that is no number', { ...good, pieces: [{ ...good.pieces[0], loss: Number.NaN }] }, 'loss'],
    [
      'a sounding without spread',
      { ...good, soundings: [{ ...good.soundings[0], sd: 0 }] },
      'standard deviation',
    ],
  ] as [string, DepthReadings, string][])('refuses %s and says which', (_, readings, part) => {
    expect(() => order(readings)).toThrow(DepthInputError);
    expect(() => order(readings)).toThrow(part);
  });
});
