import { describe, expect, it } from 'vitest';
import type { DepthReadings } from '../depth/readings.ts';
import { solveDepths } from '../depth/solve.ts';
import { inventedSeason } from './invented-season.suite.ts';
import { verdict } from './verdict.ts';

const told = (readings: DepthReadings, barrel?: number) => verdict(readings, solveDepths(readings), barrel);

describe('verdict', () => {
  const season: DepthReadings = { ...inventedSeason(5, 60), soundings: [] };

  it('is of the last run: what closes, how long the next one may be, which check helps most', () => {
    const said = told(season, 1.1);
    expect(said?.run).toBe('60');
    expect(said?.closing?.closes).toBe(true);
    expect(said?.lookAgain).toEqual([]);
    const { stub } = solveDepths(season).runs[59];
    expect(said?.longest?.length).toBeCloseTo(1.1 - Math.min(stub.max, stub.value + 3 * stub.sd), 12);
    expect(said?.best).toBe(said?.checks[0]);
    expect(said?.best?.after).toBeLessThan(0.9 * (said?.best?.before as number));
  });

  it('a stub that may be left makes the next run shorter', () => {
    const pieces = season.pieces.filter((piece) => piece.run !== '60');
    const nothing = told({ ...season, pieces }, 1.1);
    const core = told(season, 1.1);
    expect(nothing?.longest?.length as number).toBeLessThan((core?.longest?.length as number) - 0.5);
    expect(nothing?.longest?.length).toBeGreaterThanOrEqual(0);
  });

  it('the barrel of the run itself counts where none is given, and without any nothing is said of the next run', () => {
    expect(told(season)?.longest).toBeNull();
    const runs = season.runs.map((run) => ({ ...run, barrelLength: 0.99 }));
    expect(told({ ...season, runs })?.longest?.barrel).toBe(0.99);
  });

  it('sends people back to a reading on the bench that does not fit, but not to one of days ago', () => {
    const slip = (at: number): DepthReadings => ({
      ...season,
      runs: season.runs.map((run, i) => (i === at ? { ...run, to: (run.to as number) + 1 } : run)),
    });
    expect(told(slip(58))?.lookAgain).toMatchObject([
      { what: 'run', which: '59', field: 'to', likely: '1 m' },
    ]);
    expect(told(slip(20))?.lookAgain).toEqual([]);
  });

  it('no check is best where none is worth the trip', () => {
    // by a mark on the cable, which was checked: a weighted tape's scale, or a fill of decimetres, would still be in doubt
    const sounded: DepthReadings = {
      ...season,
      soundings: [
        { id: 's', afterRun: '60', by: 'cable mark', depth: season.runs[59].to as number, sd: 0.001 },
      ],
      cableChecks: [{ id: 'c', afterRun: '60', counter: 50, mark: 50, sd: 0.01 }],
    };
    expect(told(sounded)?.best).toBeNull();
  });

  it('of a hole without runs is none', () => {
    expect(told({ runs: [], pieces: [], soundings: [] })).toBeNull();
  });
});
