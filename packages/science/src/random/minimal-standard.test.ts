import { describe, expect, it } from 'vitest';
import { minimalStandard } from './minimal-standard.ts';

describe('minimalStandard', () => {
  // Park & Miller 1988: the test of an implementation that the paper itself gives
  it('from seed 1 the 10,000th number is 1043618065', () => {
    const next = minimalStandard(1);
    let last = 0;
    for (let i = 0; i < 10_000; i++) last = next();
    expect(last).toBe(1043618065);
  });
  it('refuses 0, from which nothing else would come, and what is beyond its range', () => {
    expect(() => minimalStandard(0)).toThrow(/seed is 0/);
    expect(() => minimalStandard(2147483647)).toThrow(/seed/);
  });
});
