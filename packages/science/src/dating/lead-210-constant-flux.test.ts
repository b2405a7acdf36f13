import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import {
  accumulationOfSlope,
  constantFluxAccumulation,
  type Lead210Sample,
} from './lead-210-constant-flux.ts';

describe('210Pb of constant flux and accumulation', () => {
  it('a slope of -0.05 a m w.e. is 0.624457 m w.e. a year', () => {
    expect(accumulationOfSlope(-0.05, 22.2)).toBeCloseTo(0.624457, 6);
  });

  // a weighted straight line with its errors, recomputed in double precision: x 1 to 5, y 2.1 3.9 6.2 7.8 10.1,
  // sd 0.1 0.1 0.2 0.2 0.4; here ln C = -y
  it('fits the line by the samples’ weights: slope, intercept and their scaled errors', () => {
    const sds = [0.1, 0.1, 0.2, 0.2, 0.4];
    const samples = [2.1, 3.9, 6.2, 7.8, 10.1].map((y, i) => ({
      depth: i + 1,
      concentration: Math.exp(-y),
      sd: sds[i] * Math.exp(-y),
    }));
    const fit = constantFluxAccumulation(samples, 22.2);
    expect(fit.slope).toBeCloseTo(-1.953362256, 9);
    expect(Math.log(fit.surface)).toBeCloseTo(-0.094577007, 8);
    expect(fit.reducedChiSquare).toBeCloseTo(3.449566161 / 3, 9);
    expect(fit.slopeSd).toBeCloseTo(0.063957735, 9);
    expect(fit.surfaceShare).toBeCloseTo(0.143013843, 9);
    expect(fit.accumulation).toBeCloseTo(Math.LN2 / 22.2 / 1.953362256, 9);
    expect(constantFluxAccumulation(samples.toReversed(), 22.2).slope).toBeCloseTo(fit.slope, 12);
  });

  it('states an error that holds the truth: 93 to 97 % of 1,000 simulated cores', () => {
    const random = seeded(210);
    const truth = 0.52;
    const t = 22.2;
    let held = 0;
    for (let core = 0; core < 1000; core++) {
      // the half-life that nature has, against the one that is believed
      const real = t + 0.22 * random.normal();
      const samples = Array.from({ length: 14 }, (_, i): Lead210Sample => {
        const depth = 0.7 + 2.3 * i;
        const clean = 85 * Math.exp((-Math.LN2 / real / truth) * depth);
        const sd = 0.04 * clean + 0.1;
        return { depth, concentration: Math.max(clean + sd * random.normal(), 1e-3), sd };
      });
      const fit = constantFluxAccumulation(samples, t, 0.22);
      if (Math.abs(fit.accumulation - truth) <= 1.96 * fit.accumulationSd) held += 1;
    }
    expect(held).toBeGreaterThan(930);
    expect(held).toBeLessThanOrEqual(985);
  });

  it('refuses what no line can be drawn through, by sample', () => {
    const good: Lead210Sample = { depth: 1, concentration: 60, sd: 3 };
    const fit = (...samples: Lead210Sample[]) => constantFluxAccumulation(samples, 22.2);
    expect(() => fit(good)).toThrow(/there are 1 samples; allowed: 2 or more/);
    expect(() => fit(good, { ...good, concentration: 0 })).toThrow(/sample 2: its concentration is 0/);
    expect(() => fit(good, { ...good, sd: 0 })).toThrow(/sample 2: its standard deviation is 0/);
    expect(() => fit(good, { ...good, depth: Number.NaN })).toThrow(/sample 2: its depth is NaN/);
    expect(() => fit(good, { ...good, concentration: 40 })).toThrow(/at one depth/);
    expect(() => fit(good, { ...good, depth: 4, concentration: 70 })).toThrow(/must fall with depth/);
  });
});
