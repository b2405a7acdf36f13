import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from './assumptions.ts';
import { gross } from './gross.ts';
import { makeJob } from './model.ts';
import { order } from './order.ts';
import type { DepthReadings } from './readings.ts';
import { solveDepths } from './solve.ts';
import { tolerances } from './tolerances.ts';

const cent = (value: number) => Math.round(value * 100) / 100;
/** Invented: twelve runs of 0.9 m that close. */
const clean: DepthReadings = {
  runs: Array.from({ length: 12 }, (_, i) => ({
    id: `${i + 1}`,
    from: cent(0.9 * i),
    to: cent(0.9 * (i + 1)),
  })),
  pieces: Array.from({ length: 12 }, (_, i) => ({
    id: `p${i + 1}`,
    run: `${i + 1}`,
    length: 0.895,
    topBreak: 'fits',
  })),
  soundings: [],
};
const withRun = (id: string, change: object): DepthReadings => ({
  ...clean,
  runs: clean.runs.map((run) => (run.id === id ? { ...run, ...change } : run)),
});
const bottoms = (readings: DepthReadings) => solveDepths(readings).pieces.map((piece) => piece.bottom.value);
const right = bottoms(clean);

describe('readings that are wrong by metres', () => {
  it.each([
    ['a start 4.5 m too shallow (digits exchanged)', '7', { from: 0.54 + 0.36 }, 'from'],
    ['an end 27 m too deep', '6', { to: 32.4 }, 'to'],
  ] as const)('%s is found, and no depth moves by more than 2 cm', (_, id, change, field) => {
    const readings = withRun(id, change);
    const { findings } = solveDepths(readings);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ what: 'run', which: id, field });
    bottoms(readings).forEach((bottom, i) => {
      expect(Math.abs(bottom - right[i])).toBeLessThan(0.02);
    });
  });
  it('a length that its run cannot hold is found and named', () => {
    const pieces = clean.pieces.map((piece) => (piece.id === 'p7' ? { ...piece, length: 8.095 } : piece));
    const { findings } = solveDepths({ ...clean, pieces });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ which: 'p7', field: 'length' });
  });
  it('none is left out beforehand where the zero moved, down or up, or where a run brought nothing', () => {
    for (const by of [5, -1.02]) {
      const runs = clean.runs.map((run, i) =>
        i < 6 ? run : { ...run, from: cent(run.from! + by), to: cent(run.to! + by) },
      );
      expect(gross(makeJob(order({ ...clean, runs }), defaultAssumptions, tolerances)), `${by} m`).toEqual(
        [],
      );
    }
    const pieces = clean.pieces
      .filter((piece) => piece.run !== '4')
      .map((piece) => (piece.run === '5' ? { ...piece, length: 1.79 } : piece));
    expect(gross(makeJob(order({ ...clean, pieces }), defaultAssumptions, tolerances))).toEqual([]);
  });
});
