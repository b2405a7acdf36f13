import { describe, expect, it } from 'vitest';
import { seeded } from '../../random/index.ts';
import { plainHabits, simulateSeason, usualPlan } from './index.ts';

const seasons = Array.from({ length: 150 }, (_, i) => simulateSeason(seeded(i + 1)));
const spread = (values: readonly number[]): number => {
  const middle = values.reduce((a, b) => a + b, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / values.length);
};

/** What docs/method/depth-acceptance.md says of the errors, found again in what is written. */
describe('errors of an invented season', () => {
  it('counters: start and end of a run share an offset of about 1 cm, each errs by about 0.75 cm besides', () => {
    const ends: number[] = [];
    const both: number[] = [];
    for (const { readings, truth } of seasons)
      for (let r = 0; r < 20; r++) {
        // near the surface the scale says little
        const { from, to } = readings.runs[r];
        if (from === undefined || to === undefined) continue;
        const touched = (truth.hole[r - 1] ?? 0) - truth.fill[r];
        const end = to - truth.hole[r] * (1 + truth.cableScale) + truth.zero[r];
        ends.push(end);
        both.push(from - touched * (1 + truth.cableScale) + truth.zero[r] - end);
      }
    expect(spread(ends)).toBeGreaterThan(0.011);
    expect(spread(ends)).toBeLessThan(0.014);
    // sqrt(2) of 7 mm and of 1 cm rounded
    expect(spread(both)).toBeGreaterThan(0.0095);
    expect(spread(both)).toBeLessThan(0.012);
  });
  it('lengths: 5 mm in firn and 3 mm in ice about what is true, besides biases of a millimetre', () => {
    const errors = { firn: [] as number[], ice: [] as number[] };
    for (const { readings, truth } of seasons)
      readings.pieces.forEach(({ length }, i) => {
        if (length !== undefined && length > 0.02)
          errors[truth.top[i] > 60 ? 'ice' : 'firn'].push(length - (truth.bottom[i] - truth.top[i]));
      });
    expect(spread(errors.firn)).toBeCloseTo(0.0051, 3);
    expect(spread(errors.ice)).toBeCloseTo(0.0032, 3);
  });
  it('errors have heavy tails: one length in a hundred is off by more than 3 of its standard deviations', () => {
    // normal errors: 0.27 %; Student's t with 4 degrees of freedom, scaled to variance 1: 1.3 %
    let far = 0;
    let all = 0;
    for (const { readings, truth } of seasons)
      readings.pieces.forEach(({ length }, i) => {
        if (length === undefined || length < 0.05 || truth.top[i] > 60) return;
        all++;
        if (Math.abs(length - (truth.bottom[i] - truth.top[i])) > 0.0153) far++;
      });
    expect(far / all).toBeGreaterThan(0.008);
    expect(far / all).toBeLessThan(0.018);
  });
  it('a logger’s bias lasts for weeks: the mean error of two halves of a season differ from season to season alike', () => {
    const means = seasons.map(({ readings, truth }) => {
      const own = readings.pieces.flatMap(({ run, length }, i) =>
        length === undefined || Number(run) > truth.secondCrewFrom
          ? []
          : [length - (truth.bottom[i] - truth.top[i])],
      );
      return own.reduce((a, b) => a + b, 0) / own.length;
    });
    // 0.3 mm a piece and 0.03 % of some 0.4 m; chance alone would leave 5 mm / sqrt(150)
    expect(spread(means)).toBeGreaterThan(0.0003);
    expect(spread(means)).toBeLessThan(0.0007);
  });
  it('lost ice is estimated within a factor of two, in nine of ten breaks', () => {
    const ratios = seasons.flatMap(({ readings, truth }) =>
      readings.pieces.flatMap(({ loss }, i) =>
        loss !== undefined && truth.meeting[i] === 'lost' && truth.gap[i] > 0.02 ? [loss / truth.gap[i]] : [],
      ),
    );
    const within = ratios.filter((ratio) => ratio > 0.5 && ratio < 2).length / ratios.length;
    expect(within).toBeGreaterThan(0.88);
    expect(within).toBeLessThan(0.99);
  });
  it('a cable check tells the scale of the counter to about a centimetre and a half', () => {
    const plan = { ...usualPlan, habits: { ...plainHabits, cableChecks: true } };
    const off = seasons.flatMap((_, i) => {
      const { readings, truth } = simulateSeason(seeded(i + 1), plan);
      return (readings.cableChecks ?? []).map(({ counter, mark }) => counter - mark * (1 + truth.cableScale));
    });
    expect(off.length).toBe(300);
    expect(spread(off)).toBeGreaterThan(0.013);
    expect(spread(off)).toBeLessThan(0.022);
  });
});
