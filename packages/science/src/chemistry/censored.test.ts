import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arsenic } from './arsenic.suite.ts';
import { type CensoredReading, readCensored } from './censored.ts';
import { censoredBounds, halfLimitMeanDoNotUse } from './censored-bounds.ts';
import { censoredLikelihood } from './censored-likelihood.ts';
import { kaplanMeier } from './kaplan-meier.ts';
import { orderStatistics } from './order-statistics.ts';

describe('values in their own writing', () => {
  it('reads limits, decimals and powers', () => {
    expect(readCensored(' <1 1.7;<.9\n2e-3 ')).toEqual([
      { value: 1, below: true },
      { value: 1.7, below: false },
      { value: 0.9, below: true },
      { value: 0.002, below: false },
    ]);
  });
  it.each(['', '<', '1,7', '-3', 'n.d.', '<<1', '1<'])('refuses "%s"', (text) => {
    expect(() => readCensored(text)).toThrow(/is not understood; allowed: values such as 1.7 or <0.9/);
  });
});

describe('sum and mean of values below limits', () => {
  it('lie between all at zero and all at their limit', () => {
    const { sum, mean } = censoredBounds(readCensored('<1 1.7 <0.9 3.4'));
    expect(sum).toEqual([5.1, 7]);
    expect(mean).toEqual([5.1 / 4, 1.75]);
    expect(() => censoredBounds([])).toThrow(/1 or more/);
  });
  it('with half the limits (do not use) the arsenic’s mean is 1.0020833', () => {
    expect(halfLimitMeanDoNotUse(arsenic)).toBeCloseTo(1.0020833, 7);
  });
});

const lists = fc.array(
  fc.record({ value: fc.double({ min: 0.01, max: 100, noNaN: true }), below: fc.boolean() }),
  { minLength: 8, maxLength: 40 },
);
/** Enough detected for all three methods. */
const enough = (list: readonly CensoredReading[]): boolean => {
  const detected = new Set(list.filter(({ below }) => !below).map(({ value }) => value));
  return detected.size >= 3 && list.filter(({ below }) => below).length <= 0.8 * list.length;
};

describe('any values below limits', () => {
  it('scale with their unit, by every method', () => {
    fc.assert(
      fc.property(lists.filter(enough), (list) => {
        const thousand = list.map(({ value, below }) => ({ value: 1000 * value, below }));
        const close = (a: number, b: number) => expect(Math.abs(a / (1000 * b) - 1)).toBeLessThan(1e-6);
        close(kaplanMeier(thousand).mean, kaplanMeier(list).mean);
        close(orderStatistics(thousand).mean, orderStatistics(list).mean);
        close(censoredLikelihood(thousand).median.value, censoredLikelihood(list).median.value);
      }),
    );
  });

  it('the mean by Kaplan-Meier lies between the bounds', () => {
    fc.assert(
      fc.property(lists.filter(enough), (list) => {
        const {
          mean: [least, most],
        } = censoredBounds(list);
        const found = kaplanMeier(list);
        expect(found.mean).toBeLessThanOrEqual(most + 1e-9);
        expect(found.meanLeast).toBeGreaterThanOrEqual(least - 1e-9);
      }),
    );
  });

  it('without limits all is as ever: mean, s, and the mean and spread of logarithms', () => {
    const detected = lists.map((list) => list.map(({ value }) => ({ value, below: false }))).filter(enough);
    fc.assert(
      fc.property(detected, (list) => {
        const n = list.length;
        const mean = list.reduce((sum, { value }) => sum + value, 0) / n;
        const s = Math.sqrt(list.reduce((sum, { value }) => sum + (value - mean) ** 2, 0) / (n - 1));
        const logs = list.map(({ value }) => Math.log(value));
        const mu = logs.reduce((sum, y) => sum + y, 0) / n;
        const sigma = Math.sqrt(logs.reduce((sum, y) => sum + (y - mu) ** 2, 0) / n);
        const [km, ros, likely] = [kaplanMeier(list), orderStatistics(list), censoredLikelihood(list)];
        expect(km.mean).toBeCloseTo(mean, 7);
        expect(km.sd).toBeCloseTo(s, 7);
        expect(ros.mean).toBeCloseTo(mean, 7);
        expect(ros.sd).toBeCloseTo(s, 7);
        expect(likely.mu.value).toBeCloseTo(mu, 7);
        expect(likely.sigma.value).toBeCloseTo(sigma, 7);
        expect(likely.mu.sd).toBeCloseTo(sigma / Math.sqrt(n), 7);
        expect(likely.sigma.sd).toBeCloseTo(sigma / Math.sqrt(2 * n), 7);
      }),
    );
  });

  it('of none, of one, of nothing detected is refused by each', () => {
    for (const method of [kaplanMeier, orderStatistics, censoredLikelihood]) {
      expect(() => method([])).toThrow(/detected/);
      expect(() => method(readCensored('<1 <2 3'))).toThrow(/detected/);
      expect(() => method([{ value: Number.NaN, below: false }])).toThrow(/value is NaN/);
      expect(() => method([{ value: 0, below: true }])).toThrow(/value is 0/);
    }
  });
});
