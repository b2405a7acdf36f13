import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { defaultAssumptions } from './assumptions.ts';
import { sampleDepths } from './exact-sampler.suite.ts';
import type { DepthReadings } from './readings.ts';
import { solveDepths } from './solve.ts';

const moments = (values: readonly number[]) => {
  let mean = 0;
  for (const value of values) mean += value / values.length;
  let variance = 0;
  for (const value of values) variance += (value - mean) ** 2 / values.length;
  return { mean, sd: Math.sqrt(variance) };
};

/** Invented holes. */
const cases: Record<string, DepthReadings> = {
  'three short runs, one unsure break': {
    runs: [
      { id: '1', from: 0.01, to: 0.83 },
      { id: '2', from: 0.81, to: 1.62 },
      { id: '3', from: 1.61, to: 2.44 },
    ],
    pieces: [
      { id: 'a', run: '1', length: 0.786, topBreak: 'fits' },
      { id: 'b', run: '2', length: 0.402, topBreak: 'fits' },
      { id: 'c', run: '2', length: 0.388, topBreak: 'unsure' },
      { id: 'd', run: '3', length: 0.835, topBreak: 'fits' },
    ],
    soundings: [],
  },
  'four runs, much of it unsure, lost ice, a sounding': {
    runs: [
      { id: '1', from: 0, to: 0.75 },
      { id: '2', from: 0.73, to: 1.58 },
      { id: '3', from: 1.5, to: 2.41 },
      { id: '4', from: 2.4, to: 3.22 },
    ],
    pieces: [
      { id: 'a', run: '1', length: 0.702, topBreak: 'fits' },
      { id: 'b', run: '2', length: 0.355, topBreak: 'unsure' },
      { id: 'c', run: '2', length: 0.431, topBreak: 'unsure' },
      { id: 'd', run: '3', length: 0.802, topBreak: 'loss', loss: 0.03 },
      { id: 'e', run: '4', length: 0.41, topBreak: 'unsure' },
      { id: 'f', run: '4', length: 0.397, topBreak: 'unsure' },
    ],
    soundings: [{ id: 's', afterRun: '3', depth: 2.37, sd: 0.03 }],
  },
  "four runs, ground breaks, a stub that the next run's barrel hardly holds": {
    runs: [
      { id: '1', from: 0, to: 0.82 },
      { id: '2', from: 0.81, to: 1.63 },
      { id: '3', from: 1.62, to: 2.45, barrelLength: 0.9 },
      { id: '4', from: 2.43, to: 3.24 },
    ],
    pieces: [
      { id: 'a', run: '1', length: 0.78, topBreak: 'ground' },
      { id: 'b', run: '2', length: 0.72, topBreak: 'ground' },
      { id: 'c', run: '3', length: 0.83, topBreak: 'unsure' },
      { id: 'd', run: '4', length: 0.79, topBreak: 'ground' },
    ],
    soundings: [],
  },
  'three runs, two lengths of one piece that disagree by 4 cm': {
    runs: [
      { id: '1', from: 0, to: 0.8 },
      { id: '2', from: 0.8, to: 1.6 },
      { id: '3', from: 1.6, to: 2.4 },
    ],
    pieces: [
      { id: 'a', run: '1', length: 0.77, topBreak: 'fits' },
      { id: 'b', run: '2', length: 0.76, lengths: [0.8], topBreak: 'fits' },
      { id: 'c', run: '3', length: 0.8, topBreak: 'unsure' },
    ],
    soundings: [],
  },
};

/** Of mean (in standard deviations) and standard deviation; wider where the posterior has two heaps. */
const usual = { within: 0.15, least: 0.9, sweeps: 20_000 };
const twoHeaps = { within: 0.3, least: 0.87, sweeps: 20_000 };

describe('solveDepths against an exact sampler', () => {
  for (const [title, readings] of Object.entries(cases)) {
    const { within, least, sweeps } = title.includes('disagree') ? twoHeaps : usual;
    it(`${title}: means within ${within} standard deviations, standard deviations within ${100 * within} %`, () => {
      const solved = solveDepths(readings);
      const drawn = sampleDepths(readings, defaultAssumptions, seeded(20), sweeps);
      readings.runs.forEach((run, r) => {
        const hole = moments(drawn.holes[r]);
        const got = solved.runs[r].holeBottom;
        expect(Math.abs(got.value - hole.mean) / hole.sd, `hole ${run.id}`).toBeLessThan(within);
        expect(Math.abs(got.sd / hole.sd - 1), `hole ${run.id} sd`).toBeLessThan(within);
        const last = solved.pieces.filter((piece) => piece.run === run.id).at(-1)?.bottom;
        const bottom = moments(drawn.bottoms[r]);
        expect(Math.abs((last?.value ?? 0) - bottom.mean) / bottom.sd, `bottom ${run.id}`).toBeLessThan(
          within,
        );
        expect(Math.abs((last?.sd ?? 0) / bottom.sd - 1), `bottom ${run.id} sd`).toBeLessThan(within);
        const low = (last?.value ?? 0) - 1.96 * (last?.sd ?? 0);
        const high = (last?.value ?? 0) + 1.96 * (last?.sd ?? 0);
        const held =
          drawn.bottoms[r].filter((value) => value > low && value < high).length / drawn.bottoms[r].length;
        expect(held, `share of draws in the 95 % interval, run ${run.id}`).toBeGreaterThan(least);
      });
    });
  }
});
