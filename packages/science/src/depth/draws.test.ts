import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { jointDraws } from './draws.ts';
import type { DepthReadings } from './readings.ts';
import { simulateSeason, usualPlan } from './season.suite.ts';
import { adjustDepths } from './solve.ts';

/** Invented; with what divides a run into rows, ties lengths on a tray, and is in no order. */
const readings: DepthReadings = {
  runs: [
    { id: '1', from: 0, to: 0.8, catcherHeight: 0.03 },
    { id: '2', from: 0.79, to: 1.6, catcherHeight: 0.03 },
    {
      id: '3',
      from: 1.59,
      to: 2.41,
      trayTape: {
        breaks: [
          { piece: 'c', top: 0, bottom: 0.402 },
          { piece: 'd', top: 0.402, bottom: 0.8 },
        ],
      },
    },
    { id: '4', from: 2.4, to: 3.2 },
  ],
  pieces: [
    { id: 'a', run: '1', length: 0.77, topBreak: 'fits' },
    { id: 'b', run: '2', length: 0.8, topBreak: 'ground', catcherMark: { depth: 0.79, byRun: '2' } },
    { id: 'c', run: '3', topBreak: 'loss', loss: 0.02 },
    { id: 'd', run: '3', topBreak: 'fits' },
    { id: 'e', run: '4', length: 0.3, topBreak: 'unsure', orderUnsure: true },
    { id: 'f', run: '4', length: 0.46, topBreak: 'loss', loss: 0.03 },
  ],
  soundings: [{ id: 's', afterRun: '4', depth: 3.18, sd: 0.03 }],
};

const moments = (values: readonly number[]) => {
  const mean = values.reduce((x, y) => x + y, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((x, y) => x + (y - mean) ** 2, 0) / values.length) };
};

describe('jointDraws', () => {
  const posterior = adjustDepths(readings);
  const { solution } = posterior;
  const draws = jointDraws(posterior, 8000, seeded(5));

  it('have the mean and the spread of every depth (8,000 draws; 0.08 standard deviations, 5 %)', () => {
    solution.runs.forEach(({ id, holeBottom }, i) => {
      const { mean, sd } = moments(draws.map((draw) => draw.holeBottom[i]));
      expect(Math.abs(mean - holeBottom.value) / holeBottom.sd, `hole ${id}`).toBeLessThan(0.08);
      expect(Math.abs(sd / holeBottom.sd - 1), `hole ${id} sd`).toBeLessThan(0.05);
    });
    solution.pieces.forEach(({ id, top, bottom }, i) => {
      for (const [estimate, values] of [
        [top, draws.map((draw) => draw.top[i])],
        [bottom, draws.map((draw) => draw.bottom[i])],
      ] as const) {
        // the first top lies at the zero: gaps below 0 are closed
        if (estimate.sd < 0.002) continue;
        const { mean, sd } = moments(values);
        expect(Math.abs(mean - estimate.value) / estimate.sd, id).toBeLessThan(0.06);
        expect(Math.abs(sd / estimate.sd - 1), `${id} sd`).toBeLessThan(0.05);
      }
    });
  });
  it('move neighbours together: the length of a piece varies by millimetres, its depth by centimetres', () => {
    const { sd } = moments(draws.map((draw) => draw.bottom[3] - draw.top[3]));
    expect(sd).toBeLessThan(0.003);
    expect(solution.pieces[3].bottom.sd).toBeGreaterThan(3 * sd);
  });
  it("keep pieces in order and above the hole's bottom, but for the two whose order nobody knows", () => {
    let wrong = 0;
    for (const { top, bottom, holeBottom } of draws) {
      for (let i = 0; i < top.length; i++) if (top[i] > bottom[i]) wrong++;
      for (const i of [1, 2, 3]) if (top[i] < bottom[i - 1]) wrong++;
      if (Math.max(...bottom) > holeBottom[3]) wrong++;
    }
    expect(wrong).toBe(0);
    const below = draws.filter((draw) => draw.top[4] > draw.top[5]).length / draws.length;
    expect(Math.abs(below - 0.5)).toBeLessThan(0.03);
  });
  it('are the same from the same seed, and none are none', () => {
    const [one] = jointDraws(posterior, 1, seeded(3));
    const [two] = jointDraws(posterior, 1, seeded(3));
    expect(one).toEqual(two);
    expect(jointDraws(posterior, 0, seeded(3))).toEqual([]);
  });
  it('of a season spread about its depths as far as these say: sum of squares of 30 hole bottoms', () => {
    const season = adjustDepths(simulateSeason(seeded(4), { ...usualPlan, runs: 30 }).readings);
    const many = jointDraws(season, 2000, seeded(6));
    const spread = many.map((draw) =>
      season.solution.runs.reduce(
        (sum, { holeBottom }, i) => sum + (draw.holeBottom[i] - holeBottom.value) ** 2,
        0,
      ),
    );
    const want = season.solution.runs.reduce((sum, { holeBottom }) => sum + holeBottom.sd ** 2, 0);
    expect(moments(spread).mean / want).toBeGreaterThan(0.93);
    expect(moments(spread).mean / want).toBeLessThan(1.07);
  });
});
