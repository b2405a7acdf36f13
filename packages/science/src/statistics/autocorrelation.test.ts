import { describe, expect, it } from 'vitest';
import { autocorrelation } from './autocorrelation.ts';

describe('autocorrelation', () => {
  it('worked out by hand: 1 2 4 3 5', () => {
    // deviations -2 -1 1 0 2: squares 10, lag 1: 2 - 1 + 0 + 0, lag 2: -2 + 0 + 2
    expect(autocorrelation([1, 2, 4, 3, 5], 2)).toEqual([1, 0.1, 0]);
  });
  it('refuses lags as long as the series', () => {
    expect(() => autocorrelation([1, 2, 4, 3, 5], 4)).toThrow(/largest lag is 4/);
  });
});
