import { describe, expect, it } from 'vitest';
import { cutNormal, cutQuickly, scaledErfc } from './gaussian-tail.ts';

describe('scaledErfc', () => {
  // SciPy 1.10.1, scipy.special.erfcx
  it.each([
    [-2, 108.94090438997797],
    [-0.3, 1.4537492328427655],
    [0, 1],
    [0.2, 0.8090195199015808],
    [0.4, 0.6707877852947615],
    [1, 0.427583576155807],
    [3, 0.17900115118138998],
    [5, 0.11070463773306861],
    [30, 0.018795888861416754],
    [500, 0.0011283769103507188],
  ])('of %d is %d', (x, value) => {
    expect(Math.abs(scaledErfc(x) / value - 1)).toBeLessThan(4e-15);
  });
});

describe('cutNormal', () => {
  const moments = (z: number) => {
    // Simpson's rule on x > -z, independent of the closed form
    const steps = 40_000;
    const from = -z;
    const to = Math.max(12, -z + 12);
    const width = (to - from) / steps;
    let mass = 0;
    let first = 0;
    let second = 0;
    const peak = Math.max(0, from);
    for (let i = 0; i <= steps; i++) {
      const x = from + i * width;
      const weight =
        (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp(-0.5 * (x * x - peak * peak));
      mass += weight;
      first += weight * x;
      second += weight * x * x;
    }
    return { mean: first / mass, variance: second / mass - (first / mass) ** 2 };
  };
  it.each([-6, -2.5, -0.4, 0, 0.7, 3])('at z = %d agrees with numerical integration', (z) => {
    const out = { tail: 0, lift: 0, spread: 0 };
    cutNormal(z, out);
    const want = moments(z);
    expect(out.lift - z).toBeCloseTo(want.mean, 7);
    expect(out.spread).toBeCloseTo(want.variance, 7);
  });

  it('passes from the closed form to the series without a step', () => {
    const a = { tail: 0, lift: 0, spread: 0 };
    const b = { tail: 0, lift: 0, spread: 0 };
    cutNormal(-24.99999, a);
    cutNormal(-25.00001, b);
    expect(Math.abs(a.lift / b.lift - 1)).toBeLessThan(2e-6);
    expect(Math.abs(a.spread / b.spread - 1)).toBeLessThan(3e-6);
  });
});

describe('cutQuickly', () => {
  it('agrees with the exact functions to 2e-10 from -30 to 10, tails relatively', () => {
    const exact = { tail: 0, lift: 0, spread: 0 };
    const quick = { tail: 0, lift: 0, spread: 0 };
    let worst = 0;
    for (let z = -30; z < 10; z += 0.00137) {
      cutNormal(z, exact);
      cutQuickly(z, quick);
      worst = Math.max(
        worst,
        Math.abs(quick.tail / exact.tail - 1),
        Math.abs(quick.lift - exact.lift),
        // the spread far below 0 is 1/z^2: what the hazard is off by counts z times
        Math.abs(quick.spread - exact.spread) / (1 + Math.abs(z)),
      );
    }
    expect(worst).toBeLessThan(2e-10);
  });
});
