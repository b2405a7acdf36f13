import { describe, expect, it } from 'vitest';
import { iceSpeed, speedUncertainty } from './ice-speed.ts';

describe('speed in ice', () => {
  it('is 167.7 +- 0.3 m/us as Robin 1975 measured it (abstract); the others have no published uncertainty', () => {
    expect(iceSpeed('Robin 1975')).toEqual({ value: 167.7e6, sd: 0.3e6 });
    const kovacs = iceSpeed('Kovacs, Gow & Morey 1995');
    expect(kovacs.value / 1e6).toBeCloseTo(168.91001, 5);
    expect(kovacs.sd).toBeNull();
    expect(iceSpeed('168 m/us')).toEqual({ value: 168e6, sd: null });
  });

  it('carries the 1 % of the review (Fujita et al. 2000) to other places, beside what was measured', () => {
    expect(speedUncertainty(iceSpeed('168 m/us'))).toBeCloseTo(1.68e6, 3);
    expect(speedUncertainty(iceSpeed('Robin 1975'))).toBeCloseTo(Math.hypot(0.3e6, 1.677e6), 3);
  });
});
