import { describe, expect, it } from 'vitest';
import { surfaceHeld, surfaceInAir } from './semi-infinite.ts';

describe('a thick body', () => {
  // diffusivity 1.3e-6 m2/s; h 10 W/m2/K, k 2.3 W/m/K; recomputed with SciPy
  it.each([
    [0.01, 600, 0.80012538, 0.08900173],
    [0.02, 600, 0.61259715, 0.06160434],
    [0.05, 3600, 0.60528783, 0.132061],
  ])('at %d m after %d s has felt this much, surface held or in air', (depth, time, held, air) => {
    expect(Math.abs(surfaceHeld(depth, time, 1.3e-6) - held)).toBeLessThan(1e-8);
    expect(Math.abs(surfaceInAir(depth, time, 1.3e-6, 10, 2.3) - air)).toBeLessThan(1e-8);
  });

  it('feels nothing at time 0, all after long, and does not overflow in between', () => {
    expect(surfaceHeld(0, 0, 1.1e-6)).toBe(1);
    expect(surfaceHeld(0.1, 0, 1.1e-6)).toBe(0);
    expect(surfaceInAir(0.2, 0, 1.1e-6, 9, 2.1)).toBe(0);
    // h^2 a t/k^2 is 4.6e4 here: its exponential is no double
    const late = surfaceInAir(0.3, 1e9, 1.2e-6, 14, 2.25);
    expect(late).toBeGreaterThan(0.99);
    expect(late).toBeLessThan(surfaceHeld(0.3, 1e9, 1.2e-6));
  });

  it('behaves as a held surface when the air passes heat well', () => {
    expect(surfaceInAir(0.02, 900, 1.3e-6, 1e6, 2.2)).toBeCloseTo(surfaceHeld(0.02, 900, 1.3e-6), 4);
  });

  it('refuses a depth above the surface and a time before the start', () => {
    expect(() => surfaceHeld(-0.1, 10, 1e-6)).toThrow(/depth is -0\.1 m/);
    expect(() => surfaceInAir(0.1, -10, 1e-6, 8, 2)).toThrow(/time is -10 s/);
  });
});
