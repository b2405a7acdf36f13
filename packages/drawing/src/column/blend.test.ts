import { describe, expect, it } from 'vitest';
import { blend } from './blend.ts';
import { ceredin } from './ceredin.suite.ts';

describe('blend', () => {
  const shifted = {
    ...ceredin,
    pieces: ceredin.pieces.map((piece) => ({
      ...piece,
      top: { ...piece.top, value: piece.top.value + 0.3 },
    })),
  };

  it('half-way puts each piece between its old and its new place', () => {
    const half = blend(ceredin, shifted, 0.5);
    for (const [at, piece] of half.pieces.entries())
      expect(piece.top.value).toBeCloseTo(ceredin.pieces[at]!.top.value + 0.15, 12);
  });

  it('ends at the new solution itself, and a piece that is new stands in its place at once', () => {
    expect(blend(ceredin, shifted, 1)).toBe(shifted);
    const before = { ...ceredin, pieces: ceredin.pieces.slice(0, -1) };
    expect(blend(before, shifted, 0.2).pieces.at(-1)).toEqual(shifted.pieces.at(-1));
  });
});
