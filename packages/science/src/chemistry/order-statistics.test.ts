import { describe, expect, it } from 'vitest';
import { arsenic } from './arsenic.suite.ts';
import { readCensored } from './censored.ts';
import { orderStatistics } from './order-statistics.ts';

describe('regression on order statistics', () => {
  // Helsel 2005 ch. 6, by two programs outside of the project that agree in all digits
  it('the arsenic: ln x = -0.2299870 + 0.6467751 z, mean 0.9724632, sd 0.7180122, median 0.7', () => {
    const fit = orderStatistics(arsenic);
    expect(fit.intercept).toBeCloseTo(-0.229987, 6);
    expect(fit.slope).toBeCloseTo(0.6467751, 7);
    expect(fit.mean).toBeCloseTo(0.9724632, 7);
    expect(fit.sd).toBeCloseTo(0.7180122, 7);
    expect(fit.median).toBeCloseTo(0.7, 12);
  });

  it('keeps detected values as they are and puts its line only in place of the others', () => {
    const { positions } = orderStatistics(arsenic);
    const detected = positions.filter(({ below }) => !below).map(({ value }) => value);
    expect(detected).toEqual([0.5, 0.5, 0.5, 0.6, 0.7, 0.7, 0.9, 1.5, 1.7, 2.8, 3.2]);
    expect(positions).toHaveLength(24);
  });

  it('with one limit and all detected above it, positions are those of Weibull on both sides', () => {
    // by hand: e = 3/5; detected at 0.4 + 0.6 i/4, censored at 0.4 i/3
    const { positions } = orderStatistics(readCensored('<1 <1 2 3 5'));
    const shares = positions.map(({ share }) => share).toSorted((a, b) => a - b);
    const wanted = [0.4 / 3, 0.8 / 3, 0.55, 0.7, 0.85];
    shares.forEach((share, i) => {
      expect(share).toBeCloseTo(wanted[i]!, 12);
    });
  });

  it('refuses above 80 % censored, and fewer than three different values', () => {
    const much = readCensored(`${'<1 '.repeat(13)}2 3 4`);
    expect(() => orderStatistics(much)).toThrow(/81.3 % are censored; allowed: up to 80 %/);
    expect(() => orderStatistics(readCensored(`${'<1 '.repeat(12)}2 3 4`))).not.toThrow();
    expect(() => orderStatistics(readCensored('2 2 3 <1'))).toThrow(/2 different values were detected/);
  });
});
