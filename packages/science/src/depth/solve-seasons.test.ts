import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { simulateSeason } from './simulate-season/simulate-season.ts';
import { solveDepths } from './solve.ts';

describe('solveDepths on 40 simulated seasons (heavy tails, run bias, empty runs, long stubs)', () => {
  const solved: number[] = [];
  const logger: number[] = [];
  const driller: number[] = [];
  let inside = 0;
  let allowed = 0;
  let depths = 0;
  let findings = 0;
  let readingCount = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const { readings, truth } = simulateSeason(seeded(seed));
    const solution = solveDepths(readings);
    const ends = new Map(readings.runs.map((run) => [run.id, run.to]));
    let own = 0;
    let sums = 0;
    let counters = 0;
    let sum = 0;
    solution.pieces.forEach((piece, i) => {
      const error = piece.bottom.value - truth.bottom[i];
      own += error ** 2;
      sum += readings.pieces[i].length + (readings.pieces[i].loss ?? 0);
      sums += (sum - truth.bottom[i]) ** 2;
      // the driller's depth of the piece: end of its run less what of the run lies below it
      let below = 0;
      for (let j = i + 1; readings.pieces[j]?.run === piece.run; j++) below += readings.pieces[j].length;
      counters += (ends.get(piece.run)! - below - truth.bottom[i]) ** 2;
      depths++;
      if (Math.abs(error) < 1.96 * piece.bottom.sd) inside++;
      if (truth.bottom[i] >= piece.bottom.min && truth.bottom[i] <= piece.bottom.max) allowed++;
    });
    const n = solution.pieces.length;
    solved.push(Math.sqrt(own / n));
    logger.push(Math.sqrt(sums / n));
    driller.push(Math.sqrt(counters / n));
    findings += solution.findings.length;
    readingCount += 2 * readings.runs.length + readings.pieces.length + readings.soundings.length;
  }
  const median = (values: number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];

  it('95 % intervals hold 90 to 99 % of the true depths', () => {
    expect(inside / depths).toBeGreaterThan(0.9);
    expect(inside / depths).toBeLessThan(0.99);
  });
  it('min and max hold nearly all of them', () => {
    expect(allowed / depths).toBeGreaterThan(0.995);
  });
  it('the rms error is less than a third of the sum of lengths and of the counter', () => {
    expect(median(solved)).toBeLessThan(median(logger) / 3);
    expect(median(solved)).toBeLessThan(median(driller) / 3);
  });
  it('fewer than 1 false alarm in 200 readings', () => {
    expect((200 * findings) / readingCount).toBeLessThan(1);
  });
});
