import { describe, expect, it } from 'vitest';
import { firnCorrection, thickness } from './ice-thickness.ts';
import { travelThrough } from './travel-time.ts';

describe('thickness by radar', () => {
  it('is v t/2 and the firn correction: 2.5 us, 168.5 m/us, 8 m give 218.625 m', () => {
    expect(thickness(2.5e-6, 168.5e6, 8)).toBeCloseTo(218.625, 9);
  });

  it('has a firn correction that makes a known depth come out', () => {
    // recomputed in Python: 93.09704 m by 168 m/us, 6.90296 m too little
    const { depth, time } = travelThrough({
      thicknesses: [2, 3, 5, 10, 20, 60],
      densities: [350, 420, 500, 600, 720, 890],
    });
    expect(thickness(time, 168e6, 0)).toBeCloseTo(93.09704, 5);
    const correction = firnCorrection(depth, time, 168e6);
    expect(correction).toBeCloseTo(6.90296, 5);
    expect(thickness(time, 168e6, correction)).toBeCloseTo(100, 12);
  });

  it('refuses microseconds for seconds and a speed beyond light', () => {
    expect(() => thickness(2.5, 168e6, 8)).toThrow(/travel time is 2.5 s/);
    expect(() => thickness(2.5e-6, 3.1e8, 8)).toThrow(/speed is 310000000 m\/s/);
    expect(() => firnCorrection(Number.NaN, 1e-6, 168e6)).toThrow(/depth is NaN m/);
  });
});
