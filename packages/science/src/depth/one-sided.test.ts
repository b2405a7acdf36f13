import { describe, expect, it } from 'vitest';
import { emptyTilted, logMass, tilt, tiltTwin } from './one-sided.ts';

/** Simpson's rule on q > 0: independent of the closed forms. */
const integrate = (centre: number, sd: number, mean: number, rare: number, rareMean: number) => {
  const steps = 100_000;
  const to = Math.max(0, centre) + 12 * sd;
  const width = to / steps;
  let mass = 0;
  let first = 0;
  let second = 0;
  for (let i = 0; i <= steps; i++) {
    const q = i * width;
    const prior = ((1 - rare) * Math.exp(-q / mean)) / mean + (rare * Math.exp(-q / rareMean)) / rareMean;
    const seen = Math.exp(-0.5 * ((q - centre) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
    const weight = ((i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * width * prior * seen) / 3;
    mass += weight;
    first += weight * q;
    second += weight * q * q;
  }
  const expected = first / mass;
  return { logMass: Math.log(mass), mean: expected, variance: second / mass - expected ** 2 };
};

describe('tilt', () => {
  it.each([
    [0.05, 0.012, 0.03, 0, 0.2],
    [-0.03, 0.011, 0.02, 0, 0.2],
    [0.17, 0.013, 0.021, 0.03, 0.25],
    [0.004, 0.05, 0.012, 0.02, 0.3],
  ])(
    'of N(%d, %d^2) and mean %d m, rare %d agrees with numerical integration',
    (centre, sd, mean, rare, rareMean) => {
      const out = emptyTilted();
      tilt(Float64Array.of(centre, sd * sd, mean, rare, rareMean), out);
      const want = integrate(centre, sd, mean, rare, rareMean);
      expect(logMass(out)).toBeCloseTo(want.logMass, 6);
      expect(out.mean / want.mean).toBeCloseTo(1, 6);
      expect(out.variance / want.variance).toBeCloseTo(1, 5);
      // changes with the log of the mean, by differences of the integrals
      const step = 1e-3;
      const more = integrate(centre, sd, mean * Math.exp(step), rare, rareMean);
      const less = integrate(centre, sd, mean * Math.exp(-step), rare, rareMean);
      expect(out.slope).toBeCloseTo((more.logMass - less.logMass) / (2 * step), 4);
      expect(out.bend).toBeCloseTo((more.logMass - 2 * want.logMass + less.logMass) / step ** 2, 3);
      expect(out.meanSlope).toBeCloseTo((more.mean - less.mean) / (2 * step), 6);
    },
  );
});

describe('tiltTwin', () => {
  it.each([
    [0.8, 0.02, 0.79, 0.89, 0.005],
    [0.84, 0.03, 0.8, 0.9, 0.004],
    [0.5, 0.2, 0.8, 1.8, 0.003],
  ])('of N(%d, %d^2) and %d or %d agrees with numerical integration', (centre, sd, one, two, spread) => {
    const out = emptyTilted();
    tiltTwin(centre, sd * sd, one, two, spread * spread, out);
    const normal = (q: number, mean: number, s: number) =>
      Math.exp(-0.5 * ((q - mean) / s) ** 2) / (s * Math.sqrt(2 * Math.PI));
    const width = 2e-5;
    let mass = 0;
    let first = 0;
    let second = 0;
    for (let q = 0; q < 3; q += width) {
      const weight = width * 0.5 * (normal(q, one, spread) + normal(q, two, spread)) * normal(q, centre, sd);
      mass += weight;
      first += weight * q;
      second += weight * q * q;
    }
    const mean = first / mass;
    expect(logMass(out)).toBeCloseTo(Math.log(mass), 5);
    expect(out.mean).toBeCloseTo(mean, 7);
    expect(out.variance).toBeCloseTo(second / mass - mean * mean, 8);
  });
});
