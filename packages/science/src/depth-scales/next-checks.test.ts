import { describe, expect, it } from 'vitest';
import type { DepthReadings } from '../depth/readings.ts';
import { solveDepths } from '../depth/solve.ts';
import { inventedSeason } from './invented-season.suite.ts';
import { nextChecks } from './next-checks.ts';

const season: DepthReadings = { ...inventedSeason(5, 110), soundings: [] };
const solution = solveDepths(season);
const bottom = solution.runs[solution.runs.length - 1].holeBottom;

describe('nextChecks', () => {
  const checks = nextChecks(season, solution);

  it('are the best first, each with the doubt of the bottom now', () => {
    checks.forEach(({ before, after }, i) => {
      expect(before).toBe(bottom.sd);
      if (i > 0) expect(after).toBeGreaterThanOrEqual(checks[i - 1].after);
    });
  });

  it('a sounding brings what a sounding brings: the hole solved again with it', () => {
    const found = checks.find(({ kind }) => kind === 'sounding');
    const last = season.runs[season.runs.length - 1].id;
    expect(found?.which).toBe(last);
    const depth = bottom.value - solution.learned.fillMean.value;
    const sd = 0.03 + 1e-4 * bottom.value;
    const again = solveDepths({ ...season, soundings: [{ id: 's', afterRun: last, depth, sd }] });
    expect(found?.after).toBe(again.runs[again.runs.length - 1].holeBottom.sd);
    // deep down, without any check, the cable's scale is the doubt: a tape helps
    expect(found?.after).toBeLessThan(0.7 * bottom.sd);
  });

  it('a cable mark takes away the doubt of the cable, which is most of it at depth', () => {
    const found = checks.find(({ kind }) => kind === 'cable mark');
    expect(found?.at).toBe(Math.floor(bottom.value));
    expect(found?.after).toBeLessThan(0.7 * bottom.sd);
  });

  it('a length on the bench brings next to nothing at depth', () => {
    const lengths = checks.filter(({ kind }) => kind === 'length');
    expect(lengths.length).toBeGreaterThan(0);
    for (const { before, after } of lengths) expect(before - after).toBeLessThan(0.05 * before);
  });

  it('a zero is a candidate where the last run counts from another one than the first', () => {
    expect(checks.some(({ kind }) => kind === 'zero')).toBe(false);
    const zeros = [
      { id: 'first', height: 0, sd: 0.0005, fromRun: '1' },
      { id: 'snow', height: 0.3, sd: 0.3, fromRun: '60' },
    ];
    const moved = season.runs.map((run, i) =>
      i < 59 ? run : { ...run, from: (run.from as number) + 0.3, to: (run.to as number) + 0.3 },
    );
    const more = { ...season, zeros, runs: moved };
    const tried = nextChecks(more, solveDepths(more));
    const at = (wanted: string) => tried.find(({ kind }) => kind === wanted);
    expect(at('zero')?.which).toBe('snow');
    // measured to 30 cm, it is known better from the readings themselves, and from a second look at it
    expect(at('zero')?.after as number).toBeLessThan(at('zero')?.before as number);
    // a sounding counts from the same zero as the run, and so fits
    expect(at('sounding')?.after as number).toBeLessThan(0.7 * (at('sounding')?.before as number));
  });

  it('of a hole without runs are none', () => {
    const empty = { runs: [], pieces: [], soundings: [] };
    expect(nextChecks(empty, solveDepths(empty))).toEqual([]);
  });
});
