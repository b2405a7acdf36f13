import { describe, expect, it } from 'vitest';
import { dampedWave } from './damping-depth.ts';

describe('damping depth', () => {
  it('is 0.1658372 m for a day and 3.1694 m for a year of 365.25 d, at 1e-6 m2/s (recomputed)', () => {
    expect(Math.abs(dampedWave(1e-6, 86_400).dampingDepth - 0.1658372)).toBeLessThan(1e-7);
    expect(Math.abs(dampedWave(1e-6, 31_557_600).dampingDepth - 3.1694)).toBeLessThan(1e-5);
  });

  it('leaves 1/e of the swing there, and comes 1 rad of the wave later', () => {
    const { dampingDepth } = dampedWave(0.7e-6, 86_400);
    const { amplitude, lag } = dampedWave(0.7e-6, 86_400, dampingDepth);
    expect(amplitude).toBeCloseTo(Math.exp(-1), 14);
    expect(lag).toBeCloseTo(86_400 / (2 * Math.PI), 8);
  });

  it('refuses a period of 0', () => {
    expect(() => dampedWave(1e-6, 0)).toThrow(/period is 0 s/);
  });
});
