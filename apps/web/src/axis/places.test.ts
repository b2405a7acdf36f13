import type { ColumnInput } from '@firnbook/drawing';
import { describe, expect, it } from 'vitest';
import { holeEnd, pieceAt, runPlace, settled, steppable, stretchOf, twoRuns, walk } from './places.ts';

/** Invented: three runs of hole B, the second without core. */
const about = (value: number) => ({ value, sd: 0.01, min: value - 0.03, max: value + 0.03 });
const piece = (id: string, run: string, number: number, top: number, bottom: number) => ({
  id,
  name: `B-${id}`,
  number,
  run,
  top: about(top),
  bottom: about(bottom),
  topBreak: 'fits' as const,
});
const run = (id: string, from: number, to: number, bottom: number | null, nothingRecovered = false) => ({
  id,
  name: `B-${id}`,
  from,
  to,
  holeBottom: bottom === null ? null : about(bottom),
  nothingRecovered,
});
const input: ColumnInput = {
  hole: 'hole-b',
  letter: 'B',
  zero: null,
  firnTo: 60,
  pieces: [
    piece('a', 'run-1', 1, 0.01, 0.42),
    piece('b', 'run-1', 2, 0.43, 0.85),
    piece('c', 'run-3', 1, 0.87, 1.31),
    piece('d', 'run-3', 2, 1.33, 2.02),
  ],
  runs: [
    run('run-1', 0, 0.9, 0.88),
    run('run-2', 0.9, 1.4, 1.37, true),
    run('run-3', 1.4, 2.1, 2.06),
    { ...run('run-4', 0, 0, null), from: null, to: null },
  ],
  marks: [],
  soundings: [],
  features: [],
};
const bare: ColumnInput = { ...input, pieces: [], runs: [] };

describe('holeEnd', () => {
  it('is the solved bottom of the hole, and 0 for a hole that nothing is known of', () => {
    expect(holeEnd(input)).toBe(2.06);
    expect(holeEnd(bare)).toBe(0);
  });
});

describe('steppable', () => {
  it('leaves out a run that has no depth at all', () => {
    expect(steppable(input).map((one) => one.id)).toEqual(['run-1', 'run-2', 'run-3']);
  });
});

describe('stretchOf', () => {
  it('goes from the first piece to the bottom of the hole', () => {
    expect(stretchOf(input, input.runs[0]!)).toEqual({ from: 0.01, to: 0.88 });
  });

  it('of a run without core is what was drilled', () => {
    expect(stretchOf(input, input.runs[1]!)).toEqual({ from: 0.9, to: 1.37 });
  });
});

describe('twoRuns', () => {
  it('shows a run and the one before it', () => {
    expect(twoRuns(input, 2)).toEqual({ from: 0.87, to: 2.06 });
    expect(twoRuns(input, 1)).toEqual({ from: 0.01, to: 1.37 });
  });

  it('of an empty hole shows its first metre', () => {
    expect(twoRuns(bare, -1)).toEqual({ from: 0, to: 1 });
  });
});

describe('pieceAt', () => {
  it('answers the piece that holds the depth, and in a gap the nearest', () => {
    expect(pieceAt(input, 0.5)?.id).toBe('b');
    expect(pieceAt(input, 1.318)?.id).toBe('c');
    expect(pieceAt(input, 40)?.id).toBe('d');
    expect(pieceAt(bare, 1)).toBeNull();
  });
});

describe('runPlace', () => {
  it('finds the run of a piece, the run itself, and nothing for a stranger', () => {
    expect([
      runPlace(input, 'd'),
      runPlace(input, 'run-2'),
      runPlace(input, 'x'),
      runPlace(input, null),
    ]).toEqual([2, 1, -1, -1]);
  });
});

describe('walk', () => {
  it('steps a piece at a time and stops at the ends', () => {
    expect(walk(input, 'b', 'piece down')?.id).toBe('c');
    expect(walk(input, 'b', 'piece up')?.id).toBe('a');
    expect(walk(input, 'a', 'piece up')?.id).toBe('a');
    expect(walk(input, 'd', 'piece down')?.id).toBe('d');
  });

  it('steps a run at a time to its first piece', () => {
    expect(walk(input, 'b', 'run down')?.id).toBe('c');
    expect(walk(input, 'd', 'run up')?.id).toBe('a');
    expect(walk(input, 'd', 'run down')?.id).toBe('d');
  });

  it('goes to either end, and from nowhere to the newest piece', () => {
    expect(walk(input, 'c', 'top')?.id).toBe('a');
    expect(walk(input, 'a', 'bottom')?.id).toBe('d');
    expect(walk(input, null, 'piece up')?.id).toBe('d');
    expect(walk(bare, null, 'piece up')).toBeNull();
  });
});

describe('settled', () => {
  const margins = { above: 5, below: 10 };

  it('keeps the window where it was asked for within the hole', () => {
    expect(settled(12, 50, 100, 40, margins)).toEqual({ from: 12, to: 14 });
  });

  it('stops a margin above the zero and a margin below the bottom', () => {
    expect(settled(-3, 50, 100, 40, margins)).toEqual({ from: -0.1, to: 1.9 });
    expect(settled(Infinity, 50, 100, 40, margins).to).toBeCloseTo(40.2, 12);
  });

  it('of a hole shorter than the window starts at the zero', () => {
    expect(settled(Infinity, 50, 100, 0.5, margins).from).toBe(-0.1);
  });
});
