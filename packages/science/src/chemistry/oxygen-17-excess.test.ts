import { describe, expect, it } from 'vitest';
import { covarianceOf, firstOrderSd } from './first-order.suite.ts';
import { oxygen17Excess } from './oxygen-17-excess.ts';

describe('17O excess', () => {
  // slope 0.528 from memory; recomputed outside of the project
  it('of -17.80 and -33.50 permil is 30.7362 per meg', () => {
    expect(oxygen17Excess({ value: -17.8, sd: 0 }, { value: -33.5, sd: 0 }).value).toBeCloseTo(30.7362, 3);
  });

  it('is far better known than either delta, where both err along the slope', () => {
    const [delta17, delta18] = [
      { value: -17.8, sd: 0.05 },
      { value: -33.5, sd: 0.095 },
    ];
    const covariance = 0.05 * 0.095 * 0.999;
    const found = oxygen17Excess(delta17, delta18, covariance);
    const f = (a = 0, b = 0) => oxygen17Excess({ value: a, sd: 0 }, { value: b, sd: 0 }).value;
    const matrix = covarianceOf([0.05, 0.095], [[0, 1, covariance]]);
    expect(found.sd).toBeCloseTo(firstOrderSd(f, [-17.8, -33.5], matrix), 4);
    expect(found.sd).toBeLessThan(4);
    expect(oxygen17Excess(delta17, delta18).sd).toBeGreaterThan(60);
  });

  it('refuses a delta of -1000', () => {
    expect(() => oxygen17Excess({ value: -1000, sd: 0 }, { value: 0, sd: 0 })).toThrow(/delta 17O is -1000/);
  });
});
