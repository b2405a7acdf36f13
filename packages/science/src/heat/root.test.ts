import { describe, expect, it } from 'vitest';
import { rootBetween } from './root.ts';

describe('a root between two ends', () => {
  it('is found to the last digits: cos x = x (0.7390851332151607), x^9 = 2 (1.080059738892306)', () => {
    expect(Math.abs(rootBetween((x) => Math.cos(x) - x, 0, 2) - 0.7390851332151607)).toBeLessThan(3e-16);
    expect(Math.abs(rootBetween((x) => x ** 9 - 2, 0.1, 30) - 1.080059738892306)).toBeLessThan(5e-16);
  });

  it('is the end itself where that is one', () => {
    expect(rootBetween((x) => x - 3, 3, 5)).toBe(3);
    expect(rootBetween((x) => x - 5, 3, 5)).toBe(5);
  });

  it('takes few steps, however flat the function is on one side', () => {
    let calls = 0;
    const found = rootBetween(
      (x) => {
        calls += 1;
        return Math.expm1(40 * (x - 0.9));
      },
      0,
      1,
    );
    expect(Math.abs(found - 0.9)).toBeLessThan(1e-15);
    expect(calls).toBeLessThan(80);
  });
});
