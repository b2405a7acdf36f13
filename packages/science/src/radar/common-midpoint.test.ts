import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import { fitMidpoint, moveOut } from './common-midpoint.ts';

const apart = [5, 12, 20, 31, 44, 60, 75];

describe('common midpoint', () => {
  it('has the travel times that an independent computation gives', () => {
    // recomputed in Python: 80 m, 168 m/us; m apart, ns
    for (const [x, time] of [
      [0, 952.38095],
      [20, 959.79259],
      [50, 997.80087],
    ])
      expect(moveOut(80, 168e6, x) * 1e9).toBeCloseTo(time, 5);
  });

  it('fitted to times without errors gives speed, depth and time back, with no scatter', () => {
    const fit = fitMidpoint(
      apart,
      apart.map((x) => moveOut(83, 171e6, x)),
    );
    expect(fit.speed / 171e6).toBeCloseTo(1, 10);
    expect(fit.depth).toBeCloseTo(83, 8);
    expect(fit.time).toBeCloseTo(166 / 171e6, 16);
    expect(fit.scatter).toBeLessThan(1e-15);
  });

  it('has standard uncertainties that cover: of 4000 noisy surveys 94 to 96 % lie within Student’s 95 %', () => {
    const random = seeded(20260117);
    // 97.5 % of Student with 5 degrees of freedom (tables, from memory: 2.571)
    const reach = 2.571;
    let [depths, speeds] = [0, 0];
    for (let k = 0; k < 4000; k++) {
      const fit = fitMidpoint(
        apart,
        apart.map((x) => moveOut(83, 171e6, x) + 2e-9 * random.normal()),
      );
      if (Math.abs(fit.depth - 83) < reach * fit.depthSd) depths++;
      if (Math.abs(fit.speed - 171e6) < reach * fit.speedSd) speeds++;
    }
    for (const count of [depths, speeds]) {
      expect(count / 4000).toBeGreaterThan(0.94);
      expect(count / 4000).toBeLessThan(0.96);
    }
  });

  it('refuses two readings, distances that are all the same, times that fall', () => {
    expect(() => fitMidpoint([5, 20], [1e-6, 1.1e-6])).toThrow(/2 distances have 2 times/);
    expect(() => fitMidpoint([20, 20, 20], [1e-6, 1.1e-6, 1.2e-6])).toThrow(/all distances are the same/);
    expect(() => fitMidpoint([5, 20, 50], [1.2e-6, 1.1e-6, 1e-6])).toThrow(/on no hyperbola/);
    expect(() => fitMidpoint([5, 20, 50], [1e-6, Number.NaN, 1.2e-6])).toThrow(/time 2 is NaN s/);
  });
});
