import { describe, expect, it } from 'vitest';
import { inMetres, readNumber } from './number.ts';

describe('readNumber', () => {
  it.each([
    ['87.50', 87.5, 2, true],
    ['87,5', 87.5, 1, false],
    [' 12 ', 12, 0, false],
    ['-.5', -0.5, 1, false],
    ['\u22120,25', -0.25, 2, false],
    ['1.5e-3', 0.0015, 4, false],
    ['+7.', 7, 0, false],
  ])('reads %j', (text, value, decimals, endsInZero) => {
    expect(readNumber(text)).toEqual({ value, decimals, endsInZero });
  });

  it.each(['', '.', '1.234,5', '1,234.5', '1 234', '12m', '1e', '--1', '0x10', 'NaN'])(
    'refuses %j',
    (text) => {
      expect(readNumber(text)).toBeNull();
    },
  );
});

describe('inMetres', () => {
  it('adds no noise of binary fractions: 87.3 cm is 0.873 m', () => {
    expect(inMetres(87.3, 0.01)).toBe(0.873);
    expect(inMetres(123.4, 0.001)).toBe(0.1234);
  });
});
