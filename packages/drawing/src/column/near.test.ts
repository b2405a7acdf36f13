import { describe, expect, it } from 'vitest';
import { ceredin, deepHole } from './ceredin.suite.ts';
import { near } from './near.ts';

describe('near', () => {
  it('keeps every piece that reaches into the window, with the whole of its run', () => {
    const kept = near(ceredin, 28.7, 28.8);
    expect(kept.pieces.map((piece) => piece.id)).toEqual(
      // Run 34 is in the window; one piece of each neighbour goes along with it.
      expect.arrayContaining(['piece-33-1', 'piece-34-1', 'piece-34-2', 'piece-36-1']),
    );
    expect(kept.pieces.map((piece) => piece.id)).not.toContain('piece-31-1');
  });

  it('keeps a run without core whose stretch the window shows, and the run before it', () => {
    expect(near(ceredin, 29.6, 29.8).runs.map((run) => run.id)).toEqual(
      expect.arrayContaining(['run-34', 'run-35', 'run-36']),
    );
  });

  it('of the whole hole keeps all', () => {
    const all = near(ceredin, 0, 100);
    expect([all.pieces.length, all.runs.length]).toEqual([ceredin.pieces.length, ceredin.runs.length]);
  });

  it('anywhere in a deep hole misses no piece that the window touches', () => {
    const deep = deepHole(300, 3);
    for (let from = -1; from < 320; from += 7.3) {
      const ids = new Set(near(deep, from, from + 2).pieces.map((piece) => piece.id));
      const touched = deep.pieces.filter((piece) => piece.bottom.value > from && piece.top.value < from + 2);
      expect(touched.filter((piece) => !ids.has(piece.id))).toEqual([]);
      expect(ids.size).toBeLessThan(20);
    }
  });
});
