import { describe, expect, it } from 'vitest';
import { minimalStandard } from '../random/index.ts';
import { correlateSeries, correlationTest, pearson } from './correlation.ts';
import { effectivePairs } from './effective-size.ts';

/** Two series that anybody can make again: first order, by the minimal standard generator. */
const memory = (a: number, seed: number) => {
  const next = minimalStandard(seed);
  let x = 0;
  return Array.from({ length: 130 }, () => {
    x = a * x + next() / 2147483647 - 0.5;
    return x;
  }).slice(50);
};
const x = memory(0.8, 12345);
const noise = memory(0.6, 67890);
const y = x.map((value, i) => 0.5 * value + noise[i]);

describe('pearson', () => {
  it('is that of the reference library (SciPy 1.17, stats.pearsonr)', () => {
    const a = [0, 0.8, 1.5, 2.9, 4.1, 5, 6.2, 7.7, 8.3, 9.6];
    const b = [2.1, 2.9, 2.4, 3.8, 3.1, 4.4, 4, 5.3, 4.6, 5.9];
    expect(pearson(a, b)).toBeCloseTo(0.9333731537638963, 14);
    const { p, low, high } = correlationTest(pearson(a, b), 10);
    expect(p / 7.951003974555936e-5).toBeCloseTo(1, 9);
    expect(low).toBeCloseTo(0.7366708312691476, 12);
    expect(high).toBeCloseTo(0.984457265151341, 12);
  });
  it('refuses series that do not change, and unlike lengths', () => {
    expect(() => pearson([1, 1, 1, 1], [1, 2, 3, 5])).toThrow(/alike/);
    expect(() => pearson([1, 2, 3, 4], [1, 2, 3])).toThrow(/4 x, 3 y/);
  });
});

describe('correlationTest', () => {
  // recomputed in the project's sheet
  it.each([
    [100, 0.7, 0.5, 0.35, 2.538175, 0.01458191, 0.073616, 0.576456],
    [60, 0.9, 0.8, 0.5, 1.609083, 0.14739346, -0.201323, 0.862423],
    [200, 0, 0.5, 0.2, 2.872281, 0.00451923, 0.063007, 0.329595],
  ])('of %d pairs with the memories %d and %d', (n, a, b, r, t, p, low, high) => {
    const test = correlationTest(r, effectivePairs(n, a, b));
    expect(test.t).toBeCloseTo(t, 6);
    expect(test.p).toBeCloseTo(p, 8);
    expect(test.low).toBeCloseTo(low, 6);
    expect(test.high).toBeCloseTo(high, 6);
  });
  it('refuses as few pairs as say nothing, and correlations beyond 1', () => {
    expect(() => correlationTest(0.4, 3)).toThrow(/effective number of pairs is 3/);
    expect(() => correlationTest(1.1, 30)).toThrow(/correlation is 1.1/);
  });
});

describe('correlateSeries', () => {
  it('two series of memory: 29 pairs of 80, p 0.035 and not 0.0003 (recomputed in the sheet)', () => {
    [0.065318027009, 0.150893404398, -0.053901511173].forEach((value, i) => {
      expect(x[i]).toBeCloseTo(value, 12);
    });
    expect(y[0]).toBeCloseTo(0.156833396615, 12);
    const found = correlateSeries(x, y);
    expect(found.r).toBeCloseTo(0.39176972, 8);
    expect(found.xMemory).toBeCloseTo(0.763656097, 9);
    expect(found.yMemory).toBeCloseTo(0.610723972, 9);
    expect(found.effective).toBeCloseTo(29.112006, 6);
    expect(found.t).toBeCloseTo(2.217144, 6);
    expect(found.p).toBeCloseTo(0.03518491, 8);
    expect(found.naiveP).toBeCloseTo(0.0003259752, 10);
  });
  it('by all lags from 0 to 19 it is 42.28 pairs (recomputed in the sheet)', () => {
    expect(correlateSeries(x, y, { lags: 19 }).effective).toBeCloseTo(42.27839, 5);
  });
  it('is never worth more pairs than there are', () => {
    const seesaw = x.map((value, i) => value + (i % 2 ? 3 : -3));
    const found = correlateSeries(seesaw, y);
    expect(found.effective).toBeGreaterThan(80);
    expect(found.used).toBe(80);
  });
});
