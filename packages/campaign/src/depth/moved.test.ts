import type { Change, Movement } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { sayEnglish } from '../texts/say-english.ts';
import { causeSentence, movedSentence } from './moved.ts';

const names: Readonly<Record<string, string>> = { a: 'B-P031.1', b: 'B-P034.2', r: 'B-R031' };
const nameOf = (id: string) => names[id] ?? id;
const changes: readonly Change[] = [
  { kind: 'corrected', what: 'piece', which: 'a', field: 'length', before: 0.845, after: 0.857 },
  { kind: 'added', what: 'run', which: 'r', pieces: ['x', 'y'] },
  { kind: 'solver', before: 'depth 2', after: 'depth 3' },
  { kind: 'removed', what: 'sounding', which: 's' },
];
const moved = (...bottoms: readonly number[]): Movement => ({
  piece: 'b',
  top: 0,
  bottom: bottoms.reduce((sum, one) => sum + one, 0),
  causes: bottoms.map((bottom, change) => ({ change, top: 0, bottom })),
});
const said = (movement: Movement) => sayEnglish(movedSentence(movement, changes, nameOf));
const cause = (change: Change) => sayEnglish(causeSentence(change, nameOf));

describe('movedSentence in English', () => {
  it('names the one change that moved a piece', () => {
    expect(said(moved(0.012))).toBe(
      'B-P034.2 moved 12 mm down because the length of B-P031.1 was corrected from 84.5 cm to 85.7 cm.',
    );
  });

  it('shares a movement among its changes, and says that there is a rest', () => {
    expect(said(moved(-0.02, 0.004, -0.003, 0.001))).toBe(
      'B-P034.2 moved 18 mm up: 20 mm up because the length of B-P031.1 was corrected from 84.5 cm to 85.7 cm, 4 mm down because B-R031 was added with 2 pieces, 3 mm up because it was solved by depth 3 instead of depth 2, the rest because of smaller changes.',
    );
  });

  it('a piece that stayed where it was is said to', () => {
    expect(said(moved(0.0002))).toBe('B-P034.2 did not move.');
    expect(said(moved())).toBe('B-P034.2 did not move.');
  });
});

describe('causeSentence in English', () => {
  it.each<[Change, string]>([
    [
      { kind: 'corrected', what: 'run', which: 'r', field: 'to', before: 27.5, after: 28.5 },
      'the depth to of B-R031 was corrected from 27.50 m to 28.50 m',
    ],
    [
      { kind: 'corrected', what: 'piece', which: 'a', field: 'length', before: undefined, after: 0.4 },
      'the length of B-P031.1 was given as 40 cm',
    ],
    [
      { kind: 'corrected', what: 'piece', which: 'a', field: 'loss', before: 0.02, after: undefined },
      'the lost ice above it of B-P031.1, 2 cm, was taken out',
    ],
    [
      { kind: 'corrected', what: 'piece', which: 'a', field: 'run', before: 'q', after: 'r' },
      'the run of B-P031.1 was corrected from q to B-R031',
    ],
    [
      { kind: 'corrected', what: 'run', which: 'r', field: 'trayTape', before: undefined, after: {} },
      'the trayTape of B-R031 was changed',
    ],
    [{ kind: 'added', what: 'piece', which: 'a' }, 'B-P031.1 was added'],
    [{ kind: 'removed', what: 'piece', which: 'a' }, 'B-P031.1 was taken out'],
    [{ kind: 'order', what: 'piece' }, 'pieces were put into another order'],
    [
      { kind: 'assumption', name: 'cableScaleSd', before: 0.004, after: 0.003 },
      expect.stringContaining('was taken as 0.003 instead of 0.004') as unknown as string,
    ],
    [
      { kind: 'setting', name: 'holeTemperature' },
      expect.stringContaining('was changed') as unknown as string,
    ],
  ])('%o', (change, words) => {
    expect(cause(change)).toEqual(words);
  });
});
