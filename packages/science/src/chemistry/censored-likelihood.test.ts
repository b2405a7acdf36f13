import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { normalQuantile } from '../statistics/normal.ts';
import { arsenic } from './arsenic.suite.ts';
import { readCensored } from './censored.ts';
import { censoredLikelihood } from './censored-likelihood.ts';

describe('lognormal by maximum likelihood', () => {
  // Helsel 2005 ch. 6, by two programs outside of the project that agree in all digits
  it('the arsenic: mean 0.9452585, sd 0.6559261, median 0.7766007', () => {
    const fit = censoredLikelihood(arsenic);
    expect(fit.mean.value).toBeCloseTo(0.9452585, 7);
    expect(fit.sd.value).toBeCloseTo(0.6559261, 7);
    expect(fit.median.value).toBeCloseTo(0.7766007, 7);
  });

  // recomputed.py: numerical derivatives of the likelihood with 40 digits
  it('its errors come from the curvature of the likelihood', () => {
    const fit = censoredLikelihood(arsenic);
    expect(fit.mu.value).toBeCloseTo(-0.252829010317, 10);
    expect(fit.sigma.value).toBeCloseTo(0.626948457366, 10);
    expect(fit.mu.sd).toBeCloseTo(0.170613943132, 10);
    expect(fit.sigma.sd).toBeCloseTo(0.124489063698, 10);
    expect(fit.covariance).toBeCloseTo(-0.00769190507304, 10);
    expect(fit.mean.sd).toBeCloseTo(0.151110704604, 10);
    expect(fit.sd.sd).toBeCloseTo(0.197902058036, 10);
    expect(fit.median.sd).toBeCloseTo(0.132498901041, 10);
  });

  it('intervals are even about the logarithm, and wider for more confidence', () => {
    const [fit, wide] = [censoredLikelihood(arsenic), censoredLikelihood(arsenic, 0.99)];
    const [low, high] = fit.meanInterval;
    expect(Math.sqrt(low * high)).toBeCloseTo(fit.mean.value, 12);
    expect(high / low).toBeCloseTo(Math.exp((2 * 1.959963985 * fit.mean.sd) / fit.mean.value), 6);
    expect(wide.medianInterval[0]).toBeLessThan(fit.medianInterval[0]);
  });

  it('a lognormal population is found back: its quantiles, cut at the median, to 1e-3 of mu and sigma', () => {
    const readings = Array.from({ length: 20_000 }, (_, i) => {
      const value = Math.exp(1.5 + 0.8 * normalQuantile((i + 0.5) / 20_000));
      return i < 10_000 ? { value: Math.exp(1.5), below: true } : { value, below: false };
    });
    const fit = censoredLikelihood(readings);
    expect(fit.mu.value).toBeCloseTo(1.5, 3);
    expect(fit.sigma.value).toBeCloseTo(0.8, 3);
  });

  it('of 500 samples of 60 values, two limits, 93 to 97 % of the 95 % intervals hold the median, 91 to 97 % the mean', () => {
    const random = seeded(20260731);
    let [median, mean] = [0, 0];
    for (let sample = 0; sample < 500; sample += 1) {
      const readings = Array.from({ length: 60 }, (_, i) => {
        const value = Math.exp(0.4 + 0.9 * random.normal());
        const limit = i % 2 === 0 ? 1 : 1.6;
        return value < limit ? { value: limit, below: true } : { value, below: false };
      });
      const { medianInterval, meanInterval } = censoredLikelihood(readings);
      const holds = ([low, high]: readonly [number, number], value: number) =>
        Number(low < value && value < high);
      median += holds(medianInterval, Math.exp(0.4));
      mean += holds(meanInterval, Math.exp(0.4 + 0.405));
    }
    expect([median >= 465, median <= 485, mean >= 455, mean <= 485]).toEqual([true, true, true, true]);
  });

  it('climbs from far: limits a million times the values and 99 % censored', () => {
    const fit = censoredLikelihood(readCensored(`${'<1e6 '.repeat(98)}1 2`));
    expect(fit.mu.value).toBeCloseTo(Math.log(2) / 2, 6);
    expect(fit.sigma.value).toBeCloseTo(Math.log(2) / 2, 6);
    const high = censoredLikelihood(readCensored(`${'<1 '.repeat(98)}50 70`));
    expect(Number.isFinite(high.mu.sd)).toBe(true);
    expect(high.median.value).toBeLessThan(1);
  });

  it('refuses one value and a confidence of one', () => {
    expect(() => censoredLikelihood(readCensored('3 3 <5'))).toThrow(/1 different values were detected/);
    expect(() => censoredLikelihood(arsenic, 1)).toThrow(/confidence is 1/);
    expect(() => censoredLikelihood(readCensored('1e-140 <1 1e140'))).toThrow(/mean and sd overflow/);
  });
});
