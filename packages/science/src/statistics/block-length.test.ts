import { describe, expect, it } from 'vitest';
import { blockLength } from './block-length.ts';

describe('blockLength', () => {
  // formula from memory, recomputed in the sheet
  it.each([
    [100, 0.7, 10.416832, 10],
    [80, 0.8, 13.333333, 13],
    [500, 0.9, 40.678634, 41],
  ])('of %d values and memory %d: %d, that is %d', (n, a, exact, rounded) => {
    expect(blockLength(n, a).exact).toBeCloseTo(exact, 6);
    expect(blockLength(n, a).rounded).toBe(rounded);
  });
  it('is 1 without memory, and never more than half of the series', () => {
    expect(blockLength(50, 0).rounded).toBe(1);
    expect(blockLength(20, 0.99).rounded).toBe(10);
  });
});
