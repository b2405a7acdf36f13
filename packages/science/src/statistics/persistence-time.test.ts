import { describe, expect, it } from 'vitest';
import { persistenceTime } from './persistence-time.ts';

describe('persistenceTime', () => {
  it('of 0.7 is 2.803673 steps (recomputed in the sheet), times the step', () => {
    expect(persistenceTime(0.7)).toBeCloseTo(2.803673, 6);
    expect(persistenceTime(0.7, 0.25)).toBeCloseTo(0.7009183, 6);
  });
  it('refuses series without memory', () => {
    expect(() => persistenceTime(0)).toThrow(/lag 1 is 0/);
  });
});
