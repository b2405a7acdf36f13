import { describe, expect, it } from 'vitest';
import { preciseDot } from './compensated.ts';

describe('preciseDot', () => {
  it('keeps what plain sums lose: 1e16 + 1 - 1e16 is 1', () => {
    expect(preciseDot(0, Float64Array.of(1e8, 1, -1e8), 0, 1, Float64Array.of(1e8, 1, 1e8), 0, 3)).toBe(1);
  });
  it('keeps the lost half of a product: (1 + 2^-30)^2 - (1 + 2^-29) is 2^-60', () => {
    const a = 1 + 2 ** -30;
    expect(preciseDot(-(1 + 2 ** -29), Float64Array.of(a), 0, 1, Float64Array.of(a), 0, 1)).toBe(2 ** -60);
  });
  it('goes along a row of a matrix that is kept column by column', () => {
    // rows 1 3 5 and 2 4 6
    const matrix = Float64Array.of(1, 2, 3, 4, 5, 6);
    expect(preciseDot(0.5, matrix, 1, 2, Float64Array.of(9, 1, 10, 100), 1, 3)).toBe(0.5 + 2 + 40 + 600);
  });
});
