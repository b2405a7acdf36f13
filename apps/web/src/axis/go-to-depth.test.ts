import { describe, expect, it } from 'vitest';
import { typedDepth } from './go-to-depth.tsx';

describe('typedDepth', () => {
  it.each([
    ['29,48', 29.48],
    ['29.48', 29.48],
    [' 7 m ', 7],
    ['7.', 7],
    [',5', 0.5],
  ])('of "%s" is %d', (typed, metres) => {
    expect(typedDepth(typed)).toBe(metres);
  });

  it.each(['', 'm', '-3', '1.2.3', '1,234.5', 'twenty', '1e3'])('of "%s" is no depth', (typed) => {
    expect(typedDepth(typed)).toBeNull();
  });
});
