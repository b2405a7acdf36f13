import { describe, expect, it } from 'vitest';
import { leastReliefAngle, penetrationRate, pitch } from './penetration.ts';

describe('penetration', () => {
  it('is pitch times turns: 4 mm at 60 a minute are 240 mm/min, 5 mm at 80 are 400', () => {
    expect(60_000 * penetrationRate(0.004, 60 / 60)).toBeCloseTo(240, 9);
    expect(60_000 * penetrationRate(0.005, 80 / 60)).toBeCloseTo(400, 9);
    expect(60_000 * penetrationRate(0.003, 100 / 60)).toBeCloseTo(300, 9);
  });

  it('has a pitch of all cutters together', () => {
    expect(pitch(3, 0.0015)).toBeCloseTo(0.0045, 12);
  });

  it('has a least relief angle by the helix of the cut (recomputed in Python)', () => {
    expect(leastReliefAngle(0.004, 0.1)).toBeCloseTo(0.729473, 6);
    expect(leastReliefAngle(0.006, 0.1)).toBeCloseTo(1.094136, 6);
    expect(leastReliefAngle(0.005, 0.08)).toBeCloseTo(1.139713, 6);
  });

  it('refuses no cutter, millimetres for metres, a drill that stands', () => {
    expect(() => pitch(0, 0.002)).toThrow(/number of cutters is 0/);
    expect(() => penetrationRate(4, 1)).toThrow(/pitch is 4 m/);
    expect(() => penetrationRate(0.004, 0)).toThrow(/turns is 0 1\/s/);
    expect(() => leastReliefAngle(0.004, Number.NaN)).toThrow(/diameter is NaN m/);
  });
});
